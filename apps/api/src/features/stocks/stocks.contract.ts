import type { z } from 'zod';
import { stockSchema } from '#planning/yard/spaces.ts';
import { pageShape } from '../../platform/paging/page.ts';
import { patchOf } from '../../platform/shapes/layers.ts';
import { revision } from '../../platform/shapes/record.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';
import '../../shape-names.ts';

export const Stock = outputShape('Stock', stockSchema.extend({ revision }));
export const StockPage = pageShape(Stock);
export const StockInput = inputShape('StockInput', stockSchema);
export const StockPatch = inputShape('StockPatch', patchOf(stockSchema.omit({ id: true })));

export type Stock = z.output<typeof Stock.schema>;
export type StockInput = z.output<typeof StockInput.schema>;
export type StockPatch = z.output<typeof StockPatch.schema>;
