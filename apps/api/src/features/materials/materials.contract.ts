import type { z } from 'zod';
import { materialSchema } from '#planning/yard/materials.ts';
import { pageShape } from '../../platform/paging/page.ts';
import { patchOf } from '../../platform/shapes/layers.ts';
import { revision } from '../../platform/shapes/record.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';
import '../../shape-names.ts';

export const Material = outputShape('Material', materialSchema.extend({ revision }));
export const MaterialPage = pageShape(Material);
export const MaterialInput = inputShape('MaterialInput', materialSchema);
export const MaterialPatch = inputShape(
  'MaterialPatch',
  patchOf(materialSchema.omit({ id: true })),
);

export type Material = z.output<typeof Material.schema>;
export type MaterialInput = z.output<typeof MaterialInput.schema>;
export type MaterialPatch = z.output<typeof MaterialPatch.schema>;
