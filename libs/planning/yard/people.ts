import { z } from 'zod';
import { date, id, name, wallTime, weekday } from './scalars.ts';

const roles = ['foreman', 'builder', 'owner'] as const;
export const roleSchema = z.enum(roles);

export const skillSchema = z.strictObject({ id, name });

/**
 * Level 1 learner, 2 able, 3 senior; `speed` in percent of the nominal rate. A learner works
 * only beside somebody of a higher level on the same task.
 */
export const abilitySchema = z.strictObject({
  skill: id,
  level: z.int().min(1).max(3),
  speed: z.int().min(10).max(300).default(100),
});

export const breakSchema = z.strictObject({ from: wallTime, to: wallTime });

/** A span of work on one day; `to` at or before `from` means the next day. */
export const shiftSchema = z.strictObject({
  from: wallTime,
  to: wallTime,
  breaks: z.array(breakSchema).default([]),
});

export const weeklyShiftSchema = shiftSchema.extend({ weekday });

/** Hours that somebody may be asked to stay beyond the shifts; dates with an exception have none. */
export const overtimeSchema = z.strictObject({ weekday, from: wallTime, to: wallTime });

/** A date that differs from the weekly pattern; no shifts means off. */
export const shiftExceptionSchema = z.strictObject({
  date,
  shifts: z.array(shiftSchema).default([]),
  reason: z.string().max(200).default(''),
});

export const personSchema = z.strictObject({
  id,
  name,
  email: z.email().max(254).nullable().default(null),
  roles: z.array(roleSchema).min(1),
  abilities: z.array(abilitySchema).default([]),
  shifts: z.array(weeklyShiftSchema).default([]),
  exceptions: z.array(shiftExceptionSchema).default([]),
  /** Cents for an hour of work, clean-down included. */
  hourlyCost: z.int().min(0).max(10_000_000).default(0),
  overtime: z.array(overtimeSchema).default([]),
  /** Cents on top of `hourlyCost` for an hour of overtime. */
  overtimeHourlyExtra: z.int().min(0).max(10_000_000).default(0),
});

export type Role = z.infer<typeof roleSchema>;
export type Skill = z.infer<typeof skillSchema>;
export type Shift = z.infer<typeof shiftSchema>;
export type Person = z.infer<typeof personSchema>;
