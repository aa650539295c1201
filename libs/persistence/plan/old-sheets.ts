import { z } from 'zod';
import type { PlanSheet, SheetTask } from '#planning/decode/sheet.ts';
import {
  chainStepSchema,
  filmMarkSchema,
  rankViewSchema,
  sheetBoatSchema,
  sheetMoneySchema,
  sheetSchema,
  sheetTaskSchema,
} from './sheet-shape.ts';

const mixHintSchema = z.object({
  celsius: z.number(),
  potLifeMinutes: z.number(),
  useWithinMinutes: z.number(),
  batches: z.number(),
  cautions: z.array(z.string()),
});

const secondTask = sheetTaskSchema
  .omit({ bond: true, consumables: true, warnings: true, cautions: true })
  .extend({
    film: z.array(filmMarkSchema.omit({ earliest: true, latest: true, touchTest: true })),
    mix: mixHintSchema.nullable(),
  });

/** Of plans from before batches were sized and numbers had a spread. */
export const secondSheetSchema = sheetSchema.omit({ shopping: true, materials: true }).extend({
  version: z.literal(2),
  tasks: z.array(secondTask),
  money: sheetMoneySchema.omit({ climate: true }),
});

type SecondSheet = z.output<typeof secondSheetSchema>;

const oldRank = rankViewSchema
  .omit({ rank: true, distance: true })
  .extend({ gapMinutes: z.number() });

/** Of plans from before holds, slots, money and what was published were planned. */
export const firstSheetSchema = secondSheetSchema
  .omit({ currency: true, ranks: true, money: true, moved: true })
  .extend({
    version: z.literal(1),
    lateness: oldRank.nullable(),
    finishes: oldRank.nullable(),
    tasks: z.array(
      secondTask.omit({ overtimeMinutes: true, cleanedDown: true, movesTo: true, slot: true }),
    ),
    boats: z.array(sheetBoatSchema.extend({ chain: z.array(chainStepSchema.omit({ row: true })) })),
  });

export function fromFirst({
  lateness,
  finishes,
  ...sheet
}: z.output<typeof firstSheetSchema>): SecondSheet {
  const view = (
    rank: 'promises' | 'finishes',
    old: z.output<typeof oldRank> | null,
  ): SecondSheet['ranks'] => {
    if (old === null) return [];
    const { gapMinutes, ...same } = old;
    return [{ ...same, rank, distance: gapMinutes }];
  };
  return {
    ...sheet,
    version: 2,
    currency: 'EUR',
    tasks: sheet.tasks.map((task) => ({
      ...task,
      overtimeMinutes: 0,
      cleanedDown: null,
      movesTo: null,
      slot: null,
    })),
    boats: sheet.boats.map((boat) => ({
      ...boat,
      chain: boat.chain.map((step) => ({ ...step, row: null })),
    })),
    ranks: [...view('promises', lateness), ...view('finishes', finishes)],
    money: { labour: 0, overtime: 0, slots: 0, prices: 0, total: 0 },
    moved: [],
  };
}

/**
 * A film's moment was the only one that was reckoned with, so it is both ends of its span; of the
 * mix only a hint was kept, with the cautions, which stay.
 */
export function fromSecond(sheet: SecondSheet): PlanSheet {
  return {
    ...sheet,
    version: 3,
    money: { ...sheet.money, climate: 0 },
    tasks: sheet.tasks.map(({ mix, film, ...task }): SheetTask => ({
      ...task,
      film: film.map((mark) => ({
        ...mark,
        earliest: mark.when,
        latest: mark.when,
        touchTest: null,
      })),
      mix: null,
      bond: null,
      consumables: [],
      warnings: [],
      cautions: (mix?.cautions ?? []).map((text) => ({ text, source: 'the yard’s own sheet' })),
    })),
    shopping: [],
    materials: [],
  };
}
