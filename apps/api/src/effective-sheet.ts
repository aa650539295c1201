import { z } from 'zod';
import { cautionsOf } from '#cure/caution/cautions.ts';
import type { CureMaterial, Hardener } from '#cure/material/material.ts';
import { sheetCautionSchema } from '#persistence/plan/mix-shape.ts';
import { trustSchema } from '#planning/questions/trust.ts';
import {
  conversionSchema,
  cureTableSchema,
  materialSchema,
  milestoneSchema,
} from '#planning/yard/materials.ts';
import { id } from '#planning/yard/scalars.ts';
import { materialSheet, SHEET_FIELDS } from '#planning/questions/material-sheet.ts';
import { named } from './platform/shapes/names.ts';
import './shape-names.ts';

const evidence = { trust: trustSchema, source: z.string() };

const touchTest = named('TouchTest', z.object({ words: z.string(), ...evidence }));

const law = named(
  'MilestoneTimes',
  z.object({
    milestone: milestoneSchema,
    kind: named('LawKind', z.enum(['table', 'activation', 'doubling', 'conversion'])),
    rows: z
      .array(cureTableSchema.shape.rows.element)
      .describe('Of a fallback the one that is known.'),
    kjPerMol: z.number().nullable(),
    per10C: z.number().nullable(),
    conversion: conversionSchema.nullable(),
    ...evidence,
    spread: z.number().describe('A factor: openings reckon × spread, closings / spread.'),
    factor: z.number().describe('The yard’s own, from what it observed.'),
    overridden: z.boolean().describe('By the yard’s own sheet.'),
    touchTest: touchTest.nullable().describe('How a builder finds out by hand.'),
  }),
);

const line = named(
  'SheetLine',
  z.object({
    field: named('SheetField', z.enum(SHEET_FIELDS)).describe('Of the material.'),
    line: z.string(),
    value: z.number(),
    unit: z.string(),
    ...evidence,
    spread: z.number(),
    spreadIs: named('SpreadKind', z.enum(['factor', 'offset'])),
    overridden: z.boolean(),
  }),
);

export const lowAndHigh = named('LowAndHigh', z.object({ low: z.number(), high: z.number() }));

export const missingLine = named(
  'MissingLine',
  z.object({ milestone: milestoneSchema, line: z.string() }),
);

/** Whatever a material of a class or of the yard is reckoned with. */
export const effective = {
  name: z.string(),
  classId: id.nullable(),
  catalogue: z.string().describe('The version of the catalogue of classes.'),
  base: materialSchema.shape.resinSystem,
  use: materialSchema.shape.use.unwrap().unwrap(),
  surface: materialSchema.shape.surface.unwrap().unwrap(),
  waxed: z.boolean(),
  blushes: z.boolean(),
  belowMinimum: materialSchema.shape.belowMinimum.unwrap().unwrap(),
  dampAir: materialSchema.shape.dampAir.unwrap().unwrap(),
  hardener: named(
    'SheetHardener',
    z.object({
      kind: named('HardenerMeasure', z.enum(['percent', 'ratio'])),
      used: z.number().describe('Percent by mass, or grams to 100 g of resin.'),
      warn: lowAndHigh.nullable().describe('Outside: warned of. Null of a ratio.'),
      block: lowAndHigh.nullable().describe('Outside: refused. Null of a ratio.'),
    }),
  )
    .nullable()
    .describe('Null: nothing can be weighed until it is entered.'),
  times: z.array(law),
  lines: z.array(line),
  missing: z
    .array(missingLine)
    .describe('What the yard has to enter from its data sheet before it is reckoned with.'),
  cautions: z.array(sheetCautionSchema).describe('Never to be switched off.'),
};

type Effective = z.output<z.ZodObject<typeof effective>>;

/** What only the yard says of a material that bears on its cautions. */
interface YardsOwn {
  readonly isocyanate: boolean;
  readonly cautions: Effective['cautions'];
}

/** What a material is reckoned with, and the cautions of mixing it: the library's, then its own. */
export function showEffective(
  material: CureMaterial,
  own: YardsOwn = { isocyanate: false, cautions: [] },
): Effective {
  const { catalogue, laws, lines, missing } = materialSheet(material);
  const { name, classId, base, use, surface, waxed, blushes, limits, hardener } = material;
  const { belowMinimum, dampAir } = limits;
  return {
    ...{ name, classId, catalogue, base, use, surface, waxed, blushes, belowMinimum, dampAir },
    hardener: hardener && showHardener(hardener),
    times: laws.map(({ rows, conversion, ...law }) => ({
      ...law,
      rows: rows.map((row) => ({ ...row })),
      conversion: conversion && {
        ...conversion,
        k1: { ...conversion.k1 },
        k2: { ...conversion.k2 },
      },
    })),
    lines: lines.map((line) => ({ ...line })),
    missing: missing.map((line) => ({ ...line })),
    cautions: [
      ...cautionsOf({
        base,
        // What sets a polyester off is a peroxide, whatever its sheet says of the ratio.
        peroxide: base !== 'epoxy' || hardener?.kind === 'percent',
        mixGrams: null,
        dusty: false,
        greenEpoxy: false,
        solvent: false,
        enclosed: false,
        isocyanate: own.isocyanate,
        unventedHeater: false,
      }).map(({ text, source }) => ({ text, source })),
      ...own.cautions,
    ],
  };
}

function showHardener(hardener: Hardener): Effective['hardener'] {
  if (hardener.kind === 'ratio') {
    return { kind: 'ratio', used: hardener.per100.value, warn: null, block: null };
  }
  const pair = ([low, high]: readonly [number, number]) => ({ low, high });
  const { used, warn, block } = hardener;
  return { kind: 'percent', used, warn: pair(warn), block: pair(block) };
}
