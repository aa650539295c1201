import type { Figure, Trust } from './evidence.ts';
import { spreadOf } from './spread.ts';

/** A quantity with a true zero (a time, ratio or density); its spread is a factor of at least 1. */
export const figure = (
  value: number,
  trust: Trust,
  source: string,
  spread = spreadOf(trust, 'factor'),
): Figure => ({ value, spread, trust, source, overridden: false });

/** A temperature or humidity; its spread is plus or minus so many degrees or points. */
export const level = (
  value: number,
  trust: Trust,
  source: string,
  spread = spreadOf(trust, 'offset'),
): Figure => ({ value, spread, trust, source, overridden: false });
