import { dateIn, instantOf } from '../../../show/time.ts';

const dayMs = 86_400_000;

/** A moment to begin from where somebody enters one: so many days on, at this wall time. */
export const tomorrow = (zone: string, time: string, days = 1): string =>
  instantOf(`${dateIn(Date.now() + days * dayMs, zone)}T${time}`, zone);
