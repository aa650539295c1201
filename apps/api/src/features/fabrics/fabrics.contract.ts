import type { z } from 'zod';
import { fabricSchema } from '#planning/yard/materials.ts';
import { pageShape } from '../../platform/paging/page.ts';
import { patchOf } from '../../platform/shapes/layers.ts';
import { revision } from '../../platform/shapes/record.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';
import '../../shape-names.ts';

export const Fabric = outputShape('Fabric', fabricSchema.extend({ revision }));
export const FabricPage = pageShape(Fabric);
export const FabricInput = inputShape('FabricInput', fabricSchema);
export const FabricPatch = inputShape('FabricPatch', patchOf(fabricSchema.omit({ id: true })));

export type Fabric = z.output<typeof Fabric.schema>;
export type FabricInput = z.output<typeof FabricInput.schema>;
export type FabricPatch = z.output<typeof FabricPatch.schema>;
