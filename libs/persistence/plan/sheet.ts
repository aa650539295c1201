import { z } from 'zod';
import type { PlanSheet } from '#planning/decode/sheet.ts';
import { fromFirst, firstSheetSchema, fromSecond, secondSheetSchema } from './old-sheets.ts';
import { sheetSchema } from './sheet-shape.ts';

const anySchema = z.discriminatedUnion('version', [
  sheetSchema,
  secondSheetSchema,
  firstSheetSchema,
]);

/** The sheet as it was stored, in the version of now. */
export function readSheet(stored: unknown): z.output<typeof sheetSchema> {
  const sheet = anySchema.parse(stored);
  if (sheet.version === 3) return sheet;
  const now: PlanSheet = fromSecond(sheet.version === 2 ? sheet : fromFirst(sheet));
  return sheetSchema.parse(now);
}
