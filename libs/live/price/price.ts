import { z } from 'zod';
import { id, instant } from '#planning/yard/scalars.ts';

/** What edits of the work cost, against the same yard planned without them in the same way. */
export const priceSchema = z.object({
  /** Builder-minutes at the nominal rate, more (or less, negative), by skill. */
  work: z.array(z.object({ skill: id, name: z.string(), minutes: z.number() })),
  /** Grams more or less, by material; fabrics and consumables in their own unit. */
  materials: z.array(
    z.object({ id: z.string(), name: z.string(), amount: z.number(), unit: z.string() }),
  ),
  /** Cents: crew and bought-in, from the plans' money, of all boats; an owner is not shown it. */
  cents: z.number().int().nullable(),
  /** When each boat's refit is finished without and with it; `minutes` later (or earlier, negative). */
  boats: z.array(
    z.object({
      boatId: id,
      boat: z.string(),
      refitId: id,
      without: instant,
      with: instant,
      minutes: z.number().int(),
      promised: instant.nullable(),
      /** Minutes after what is promised, to the handing over as plans count it; 0: in time. */
      lateWithout: z.number().int(),
      lateWith: z.number().int(),
    }),
  ),
});
export type Price = z.output<typeof priceSchema>;
