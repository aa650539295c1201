import { z } from 'zod';

/** Ids are chosen by the yard, stable, readable, and safe in a path of a URL. */
export const id = z
  .string()
  .regex(/^[a-z0-9][a-z0-9._-]{0,119}$/, 'use lower-case letters, digits, dot, dash, underscore');

export const name = z.string().trim().min(1).max(120);

/** Wall time in the yard's zone, 24 hours. Where a span ends at midnight, `00:00`. */
export const wallTime = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'use HH:MM, 00:00 to 23:59');

/** A calendar date in the yard's zone. */
export const date = z.iso.date();

/** A whole minute with its offset or `Z`, e.g. `2026-11-02T07:00:00Z`. */
export const instant = z.iso
  .datetime({ offset: true, abort: true })
  .refine((text) => Date.parse(text) % 60_000 === 0, 'give a whole minute');

export const celsius = z.number().min(-60).max(200);
export const weekday = z.int().min(1).max(7).describe('ISO: 1 Monday to 7 Sunday');
