import { z } from 'zod';
import { trustSchema } from '#planning/questions/trust.ts';
import { whenSchema } from './when-shape.ts';

/** What of a stored plan is about materials, as it is read back. */
export const sheetCautionSchema = z.object({ text: z.string(), source: z.string() });

export const sheetAmountSchema = z.object({
  id: z.string(),
  name: z.string(),
  amount: z.number(),
  unit: z.string(),
  source: z.string(),
});

export const sheetBondSchema = z.object({
  onTask: z.string().nullable().describe('That laid the surface; null: it was there before.'),
  surface: z.string(),
  bond: z.enum(['chemical', 'mechanical']),
  preparation: z.array(z.string()).describe('What has to be done first, in order.'),
  reason: z.string(),
  source: z.string(),
});

export const sheetCupSchema = z.object({
  number: z.int(),
  resinGrams: z.number(),
  hardenerGrams: z.number(),
  hardenerMl: z.number().nullable().describe('Null where no density is known.'),
  mixAt: whenSchema,
  spreadBy: whenSchema,
  /** It gels in the cup then if it stays there. */
  potLifeEnds: whenSchema,
});

export const mixFabricSchema = z.object({
  id: z.string(),
  name: z.string(),
  squareMetres: z.number(),
  grams: z.number(),
});

export const mixSheetSchema = z.object({
  materialId: z.string(),
  material: z.string(),
  celsius: z.number().describe('Of the resin when the first cup is mixed.'),
  fabrics: z.array(mixFabricSchema),
  resinGrams: z.number().nullable().describe('Null where nothing can be weighed: see `missing`.'),
  hardenerGrams: z.number().nullable(),
  hardenerMl: z.number().nullable(),
  hardenerDensity: z.number().nullable().describe('Kilograms per litre, for the millilitres.'),
  ratio: z.string().nullable(),
  potLifeMinutes: z.number().nullable().describe('Of one of its cups.'),
  useWithinMinutes: z.number().nullable(),
  cups: z.array(sheetCupSchema),
  steps: z.array(z.string()).describe('The arithmetic of the amounts, line by line.'),
  missing: z.array(z.string()).describe('Which lines of the data sheet are to be entered.'),
});

export const sheetShoppingSchema = z.object({
  id: z.string(),
  name: z.string(),
  kind: z.enum(['resin', 'hardener', 'fabric', 'consumable']),
  unit: z.string(),
  week: z.string().describe('The Monday, by the yard’s date.'),
  amount: z.number(),
  firstUse: whenSchema,
  lastUse: whenSchema,
  shelfLifeDays: z.number().nullable(),
});

export const materialLineSchema = z.object({
  line: z.string(),
  value: z.string(),
  trust: trustSchema,
  source: z.string(),
  spread: z.number(),
  overridden: z.boolean().describe('The yard’s own number stands in the place of the class’s.'),
  factor: z.number().describe('What the yard observed; 1 where nothing was.'),
});

export const sheetMaterialSchema = z.object({
  id: z.string(),
  name: z.string(),
  classId: z.string().nullable(),
  catalogue: z.string().describe('The version of the catalogue of classes.'),
  lines: z.array(materialLineSchema),
});
