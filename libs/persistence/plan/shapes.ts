import { z } from 'zod';
import type { BindingChain, RankBound } from '#scheduling/model/plan.ts';

/** The parts of a plan that are kept as documents, as they are read back. */
const index = z.int().min(0);

export const boundsSchema: z.ZodType<RankBound[]> = z.array(
  z.strictObject({
    bound: z.number(),
    cap: z.number().nullable(),
    gap: z.number(),
    gapMinutes: z.number(),
    proof: z.string(),
  }),
);

const reasonSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('lag'), lag: index }),
  z.strictObject({ kind: z.literal('builder'), builder: index }),
  z.strictObject({ kind: z.literal('resource'), resource: index }),
  z.strictObject({ kind: z.literal('air'), space: index }),
  z.strictObject({ kind: z.literal('calendar') }),
  z.strictObject({ kind: z.literal('forbidden') }),
  z.strictObject({ kind: z.literal('release') }),
  z.strictObject({ kind: z.literal('fixed') }),
]);

export const chainsSchema: z.ZodType<BindingChain[]> = z.array(
  z.strictObject({
    refit: index,
    links: z.array(
      z.strictObject({
        from: index.nullable(),
        to: index,
        reason: reasonSchema,
        until: z.int(),
      }),
    ),
  }),
);

export const floatsSchema = z.array(z.int().nullable());
export const statusSchema = z.enum(['optimal', 'feasible']);

/** What reading a plan needs of the stored `PlanMap`. */
export const peopleSchema = z.object({ people: z.array(z.string()) });
