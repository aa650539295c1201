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

/** When something may be used; work that needs it pauses, or waits, outside. */
export const hoursSchema = z.strictObject({ weekday, from: wallTime, to: wallTime });

/** So many fewer of something from one instant to another. */
export const absenceSchema = z.strictObject({
  from: instant,
  to: instant,
  count: z.int().min(1).max(1000),
});

export const spaceSchema = z.strictObject({
  id,
  name,
  climate: climateSchema,
  /** How many people can work here at once. */
  room: z.int().min(1).max(1000),
  /** Places in it that are taken for a time, by visitors or staging. */
  taken: z.array(absenceSchema).default([]),
  /** Null: at all hours. */
  hours: z.array(hoursSchema).nullable().default(null),
  /** Spaces that dust made here reaches; name the space itself too where it does. */
  dustReaches: z.array(id),
  settlingMinutes: z.int().min(0).max(1440),
});

/** Tools, and whatever else is in short supply: moulds, clamps, stands, places on a floor. */
export const toolSchema = z.strictObject({
  id,
  name,
  count: z.int().min(1).max(1000),
  /** Lent out, or being mended. */
  away: z.array(absenceSchema).default([]),
  /** Null: at all hours. */
  hours: z.array(hoursSchema).nullable().default(null),
});

/** What work uses up: so much of it in all, of which each task takes its share. */
export const stockSchema = z.strictObject({
  id,
  name,
  unit: z.string().trim().min(1).max(20),
  total: z.number().min(0).max(1_000_000),
});

/** A door or a screen that dust does not pass while it is closed. */
export const barrierSchema = z.strictObject({
  id,
  name,
  /** As it stands before the first task that opens or closes it. */
  closed: z.boolean().default(false),
  /** Ways of dust, from space to space, that it bars. */
  blocks: z.array(z.strictObject({ from: id, to: id })).min(1),
});

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
export type Absence = z.infer<typeof absenceSchema>;
export type Hours = z.infer<typeof hoursSchema>;
export type Stock = z.infer<typeof stockSchema>;
export type Barrier = z.infer<typeof barrierSchema>;
export type Tool = z.infer<typeof toolSchema>;
export type Outdoor = z.infer<typeof outdoorSchema>;
