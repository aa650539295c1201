import { z } from 'zod';

/** Ids are chosen by the yard, stable, readable, and safe in a path of a URL. */
export const id = z
  .string()
  .regex(/^[a-z0-9][a-z0-9._-]{0,119}$/, 'use lower-case letters, digits, dot, dash, underscore');

export const name = z.string().trim().min(1).max(120);

/** Wall time in the yard's zone, 24 hours; `24:00` only ends a span. */
export const wallTime = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$|^24:00$/, 'use HH:MM');

/** A calendar date in the yard's zone. */
export const date = z.iso.date();

/** An instant with its offset or `Z`, e.g. `2026-11-02T07:00:00Z`. */
export const instant = z.iso.datetime({ offset: true });

export const celsius = z.number().min(-60).max(200);
export const weekday = z.int().min(1).max(7).describe('ISO: 1 Monday to 7 Sunday');
