import { z } from 'zod';

/** Kept in the run's `infeasibility`: why there is no plan, in the yard's words. */
export const whyNotSchema = z.strictObject({
  /** A first line, then one for each task or link that takes part. */
  lines: z.array(z.string()),
  /** What in the yard keeps it from being planned at all. */
  faults: z.array(
    z.strictObject({
      code: z.string(),
      path: z.string(),
      value: z.json().optional(),
      message: z.string(),
      cure: z.string(),
    }),
  ),
});
export type WhyNot = z.output<typeof whyNotSchema>;
