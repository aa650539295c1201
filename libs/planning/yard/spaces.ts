import { z } from 'zod';
import { celsius, id, instant, name, wallTime, weekday } from './scalars.ts';

/** From this local time on these days the space is held at `celsius`, until the next set-point. */
export const setPointSchema = z.strictObject({
  weekdays: z.array(weekday).min(1),
  from: wallTime,
  celsius,
});

export const climateSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('heated'),
    setPoints: z.array(setPointSchema).min(1),
    /** Follows the set-points as a body with one heat store, with this time constant; 0: at once. */
    lagHours: z.number().min(0).max(240).default(0),
  }),
  /** Follows the outdoors with a first-order lag, warmer by a constant. */
  z.strictObject({
    kind: z.literal('outdoors'),
    lagHours: z.number().min(0).max(240),
    warmerBy: z.number().min(-20).max(40).default(0),
  }),
]);

/** What the air's moisture follows: the outdoors plus a gain, or a dehumidifier or humidifier that holds it. */
export const humiditySchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('outdoors'),
    /** Vapour that people and wet work add, hectopascal. */
    addsHPa: z.number().min(0).max(20).default(0),
  }),
  z.strictObject({ kind: z.literal('held'), percent: z.number().min(1).max(100) }),
]);

/**
 * What surfaces in a space are as warm as: the air but for a share of the outdoors (a hull
 * skin with the weather on its other side), so many hours behind.
 */
export const skinSchema = z.strictObject({
  outdoorShare: z.number().min(0).max(1),
  lagHours: z.number().min(0).max(240).default(0),
});

/** A tent, a heater, a dehumidifier, for a time: what it makes of the climate, and what it costs. */
export const climateChangeSchema = z.strictObject({
  id,
  name,
  kind: z.enum(['heater', 'tent', 'dehumidifier']),
  from: instant,
  to: instant,
  /** Heater: the space is at least so warm. Tent: what replaces lag and warmth. Dehumidifier: at most so humid. */
  celsius: celsius.nullable().default(null),
  lagHours: z.number().min(0).max(240).nullable().default(null),
  warmerBy: z.number().min(-20).max(40).nullable().default(null),
  percent: z.number().min(1).max(100).nullable().default(null),
  /** Burns in the room without a flue: carbon monoxide, water, soot. */
  unvented: z.boolean().default(false),
  watts: z.int().min(0).max(1_000_000).default(0),
  /** Cents for each day begun. */
  costPerDay: z.int().min(0).max(1_000_000_000).default(0),
});

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
  /** Degrees that the forecast may be off either way; null: common practice for its kind. */
  bandC: z.number().min(0).max(20).nullable().default(null),
  /** Null: nothing is known of its humidity. */
  humidity: humiditySchema.nullable().default(null),
  /** Null: surfaces are as warm as the air. */
  skin: skinSchema.nullable().default(null),
  changes: z.array(climateChangeSchema).default([]),
  /** A hull's inside, a tank: vapours gather. */
  enclosed: z.boolean().default(false),
  /** How many people can work here at once. */
  room: z.int().min(1).max(1000),
  /** What work takes here, percent of what its step says: 120 in a cabin where nobody can stand. */
  workPercent: z.int().min(10).max(400).default(100),
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
  /** Relative humidity of each hour, percent, as many as temperatures; empty: not known. */
  humidity: z
    .array(z.number().min(1).max(100))
    .max(24 * 400)
    .default([]),
  source: z.string().min(1).max(300),
});

export type ClimateChange = z.infer<typeof climateChangeSchema>;
export type Climate = z.infer<typeof climateSchema>;
export type Space = z.infer<typeof spaceSchema>;
export type Absence = z.infer<typeof absenceSchema>;
export type Hours = z.infer<typeof hoursSchema>;
export type Stock = z.infer<typeof stockSchema>;
export type Barrier = z.infer<typeof barrierSchema>;
export type Tool = z.infer<typeof toolSchema>;
export type Outdoor = z.infer<typeof outdoorSchema>;
