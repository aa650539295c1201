import { EventProfile } from './profile-events.ts';
import { PeriodProfile } from './profile-periods.ts';
import type { Packing } from './packing.ts';
import type { Profile } from './profile.ts';

/**
 * One cell a period is taken while activities are no longer than this on the mean: it wins with the
 * times of PSPLIB as they are (a mean of 5.5) and times 4, an event list with the times times 60;
 * where between 22 and 330 they meet was not measured.
 */
const LONG = 24;

/** Whether a cell a period is the quicker way. */
export const isShort = (packing: Packing, duration: Int32Array): boolean =>
  packing.words === 1 && duration.reduce((sum, d) => sum + d, 0) <= LONG * duration.length;

/** The quicker of the two kinds. Nothing may be taken beyond `horizon`. */
export const profileOf = (packing: Packing, duration: Int32Array, horizon: number): Profile =>
  isShort(packing, duration)
    ? new PeriodProfile(packing, duration, horizon)
    : new EventProfile(packing, duration);
