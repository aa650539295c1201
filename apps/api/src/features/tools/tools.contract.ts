import type { z } from 'zod';
import { toolSchema } from '#planning/yard/spaces.ts';
import { pageShape } from '../../platform/paging/page.ts';
import { patchOf } from '../../platform/shapes/layers.ts';
import { revision } from '../../platform/shapes/record.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';

export const Tool = outputShape('Tool', toolSchema.extend({ revision }));
export const ToolPage = pageShape(Tool);
export const ToolInput = inputShape('ToolInput', toolSchema);
export const ToolPatch = inputShape('ToolPatch', patchOf(toolSchema.omit({ id: true })));

export type Tool = z.output<typeof Tool.schema>;
export type ToolInput = z.output<typeof ToolInput.schema>;
export type ToolPatch = z.output<typeof ToolPatch.schema>;
