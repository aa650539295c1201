import { z } from 'zod';
import type { Constraint } from '#scheduling/model/constraint.ts';
import type { BindingChain, RankBound } from '#scheduling/model/plan.ts';

/** The parts of a plan that are kept as documents, as they are read back. */
const index = z.int().min(0);

const boundSchema: z.ZodType<RankBound> = z.strictObject({
  bound: z.number(),
  caps: z.array(z.number()),
  gap: z.number(),
  distance: z.number(),
  proof: z.string(),
});

/** Of plans for problems of version 1: of two ranks, with one cap at most. */
const oldBoundSchema = z
  .strictObject({
    bound: z.number(),
    cap: z.number().nullable(),
    gap: z.number(),
    gapMinutes: z.number(),
    proof: z.string(),
  })
  .transform(({ cap, gapMinutes, ...same }): RankBound => ({
    ...same,
    caps: cap === null ? [] : [cap],
    distance: gapMinutes,
  }));

export const boundsSchema = z.array(z.union([boundSchema, oldBoundSchema]));

const reasonSchema: z.ZodType<Constraint> = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('lag'), lag: index }),
  z.strictObject({ kind: z.literal('builder'), builder: index }),
  z.strictObject({ kind: z.literal('calendar'), builder: index }),
  z.strictObject({ kind: z.literal('crew'), activity: index }),
  z.strictObject({ kind: z.literal('resource'), resource: index }),
  z.strictObject({ kind: z.literal('hours'), resource: index }),
  z.strictObject({ kind: z.literal('stock'), stock: index }),
  z.strictObject({ kind: z.literal('part'), part: index }),
  z.strictObject({ kind: z.literal('dust'), from: index, to: index }),
  z.strictObject({ kind: z.literal('surface'), surface: index }),
  z.strictObject({ kind: z.literal('barrier'), barrier: index }),
  z.strictObject({ kind: z.literal('hold'), hold: index }),
  z.strictObject({ kind: z.literal('release'), activity: index, release: index }),
  z.strictObject({ kind: z.literal('forbidden'), activity: index, mode: index, forbidden: index }),
  z.strictObject({ kind: z.literal('slots'), slotList: index }),
  z.strictObject({ kind: z.literal('fixed'), activity: index }),
  z.strictObject({ kind: z.literal('choice'), choice: index }),
  z.strictObject({ kind: z.literal('horizon') }),
]);

export const chainsSchema: z.ZodType<BindingChain[]> = z.array(
  z.strictObject({
    refit: index,
    links: z.array(
      z.strictObject({ from: index.nullable(), to: index, reason: reasonSchema, until: z.int() }),
    ),
  }),
);

export const floatsSchema = z.array(z.int().nullable());
export const statusSchema = z.enum(['optimal', 'feasible']);
