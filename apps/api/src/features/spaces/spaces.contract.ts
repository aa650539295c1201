import type { z } from 'zod';
import { spaceSchema } from '#planning/yard/spaces.ts';
import { pageShape } from '../../platform/paging/page.ts';
import { patchOf } from '../../platform/shapes/layers.ts';
import { revision } from '../../platform/shapes/record.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';
import '../../shape-names.ts';

export const Space = outputShape('Space', spaceSchema.extend({ revision }));
export const SpacePage = pageShape(Space);
export const SpaceInput = inputShape('SpaceInput', spaceSchema);
export const SpacePatch = inputShape('SpacePatch', patchOf(spaceSchema.omit({ id: true })));

export type Space = z.output<typeof Space.schema>;
export type SpaceInput = z.output<typeof SpaceInput.schema>;
export type SpacePatch = z.output<typeof SpacePatch.schema>;
