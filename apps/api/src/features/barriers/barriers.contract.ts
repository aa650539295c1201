import type { z } from 'zod';
import { barrierSchema } from '#planning/yard/spaces.ts';
import { pageShape } from '../../platform/paging/page.ts';
import { patchOf } from '../../platform/shapes/layers.ts';
import { revision } from '../../platform/shapes/record.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';
import '../../shape-names.ts';

export const Barrier = outputShape('Barrier', barrierSchema.extend({ revision }));
export const BarrierPage = pageShape(Barrier);
export const BarrierInput = inputShape('BarrierInput', barrierSchema);
export const BarrierPatch = inputShape('BarrierPatch', patchOf(barrierSchema.omit({ id: true })));

export type Barrier = z.output<typeof Barrier.schema>;
export type BarrierInput = z.output<typeof BarrierInput.schema>;
export type BarrierPatch = z.output<typeof BarrierPatch.schema>;
