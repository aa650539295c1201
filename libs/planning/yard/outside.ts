import { z } from 'zod';
import { id, instant, name } from './scalars.ts';

/** One chance in the outside world; work that uses it lies within it. Several tasks may. */
export const slotSchema = z.strictObject({
  from: instant,
  to: instant,
  /** Cents, once. */
  price: z.int().min(0).max(1_000_000_000).default(0),
  /** To be booked so many hours before it begins. */
  noticeHours: z
    .int()
    .min(0)
    .max(24 * 365)
    .default(0),
  /** Booked: paid for, and no notice is needed any more. */
  booked: z.boolean().default(false),
});

const slotKinds = ['crane', 'tide', 'truck', 'surveyor', 'subcontractor'] as const;

export const slotListSchema = z.strictObject({
  id,
  name,
  kind: z.enum(slotKinds),
  slots: z.array(slotSchema).default([]),
});

/** Something ordered, and when it is expected in the yard. */
export const deliverySchema = z.strictObject({ id, name, expected: instant });

export type Slot = z.infer<typeof slotSchema>;
export type SlotList = z.infer<typeof slotListSchema>;
export type Delivery = z.infer<typeof deliverySchema>;
