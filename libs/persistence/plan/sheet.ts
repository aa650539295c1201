import { z } from 'zod';
import type { PlanSheet, RankView } from '#planning/decode/sheet.ts';
import {
  chainStepSchema,
  rankViewSchema,
  sheetBoatSchema,
  sheetSchema,
  sheetTaskSchema,
} from './sheet-shape.ts';

const oldRank = rankViewSchema
  .omit({ rank: true, distance: true })
  .extend({ gapMinutes: z.number() });

/** Of plans from before holds, slots, money and what was published were planned. */
const oldSheetSchema = sheetSchema
  .omit({ currency: true, ranks: true, money: true, moved: true })
  .extend({
    version: z.literal(1),
    lateness: oldRank.nullable(),
    finishes: oldRank.nullable(),
    tasks: z.array(
      sheetTaskSchema.omit({ overtimeMinutes: true, cleanedDown: true, movesTo: true, slot: true }),
    ),
    boats: z.array(sheetBoatSchema.extend({ chain: z.array(chainStepSchema.omit({ row: true })) })),
  });

function upgraded({ lateness, finishes, ...sheet }: z.output<typeof oldSheetSchema>): PlanSheet {
  const view = (rank: RankView['rank'], old: z.output<typeof oldRank> | null): RankView[] => {
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

const bothSchema = z.discriminatedUnion('version', [sheetSchema, oldSheetSchema]);

/** The sheet as it was stored, in the version of now. */
export function readSheet(stored: unknown): z.output<typeof sheetSchema> {
  const sheet = bothSchema.parse(stored);
  return sheet.version === 2 ? sheet : sheetSchema.parse(upgraded(sheet));
}
