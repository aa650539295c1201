import { z } from 'zod';
import { celsius, id, instant, name, wallTime, weekday } from './scalars.ts';

/** From this local time on these days the space is held at `celsius`, until the next set-point. */
export const setPointSchema = z.strictObject({
  weekdays: z.array(weekday).min(1),
  from: wallTime,
  celsius,
});

export const climateSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('heated'), setPoints: z.array(setPointSchema).min(1) }),
  /** Follows the outdoors with a first-order lag, warmer by a constant. */
  z.strictObject({
    kind: z.literal('outdoors'),
    lagHours: z.number().min(0).max(240),
    warmerBy: z.number().min(-20).max(40).default(0),
  }),
]);

export const spaceSchema = z.strictObject({
  id,
  name,
  climate: climateSchema,
  /** How many people can work here at once. */
  room: z.int().min(1).max(1000),
  /** Spaces that dust made here reaches; name the space itself too where it does. */
  dustReaches: z.array(id),
  settlingMinutes: z.int().min(0).max(1440),
});

export const toolSchema = z.strictObject({ id, name, count: z.int().min(1).max(1000) });

/** Hourly outdoor temperatures from `from` on, degrees Celsius. */
export const outdoorSchema = z.strictObject({
  from: instant,
  celsius: z
    .array(celsius)
    .min(1)
    .max(24 * 400),
  source: z.string().min(1).max(300),
});

export type Climate = z.infer<typeof climateSchema>;
export type Space = z.infer<typeof spaceSchema>;
export type Tool = z.infer<typeof toolSchema>;
export type Outdoor = z.infer<typeof outdoorSchema>;
