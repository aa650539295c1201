import type { z } from 'zod';
import { slotListSchema } from '#planning/yard/outside.ts';
import { pageShape } from '../../platform/paging/page.ts';
import { patchOf } from '../../platform/shapes/layers.ts';
import { revision } from '../../platform/shapes/record.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';
import '../../shape-names.ts';

export const SlotList = outputShape('SlotList', slotListSchema.extend({ revision }));
export const SlotListPage = pageShape(SlotList);
export const SlotListInput = inputShape('SlotListInput', slotListSchema);
export const SlotListPatch = inputShape(
  'SlotListPatch',
  patchOf(slotListSchema.omit({ id: true })),
);

export type SlotList = z.output<typeof SlotList.schema>;
export type SlotListInput = z.output<typeof SlotListInput.schema>;
export type SlotListPatch = z.output<typeof SlotListPatch.schema>;
