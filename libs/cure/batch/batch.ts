import type { CureMaterial } from '../material/material.ts';
import { rateOf } from '../material/rate.ts';

/** A batch is what is used in this share of the pot life (common practice, no source). */
const SHARE = 0.5;

/**
 * Minutes of pot life of a cup at a temperature, not rounded; null where the material has
 * no pot life on its sheet or may not be mixed (below its minimum, above its maximum).
 */
export function potLife(material: CureMaterial, celsius: number): number | null {
  const table = material.milestones['pot-life'];
  if (table === undefined || celsius < material.minimumC || celsius > material.maximumC)
    return null;
  return 1 / rateOf(table, 'close', material.minimumC)(celsius);
}

/** Whole minutes in which a batch is to be used up, at least 1. */
export const batchLimit = (potLifeMinutes: number): number =>
  Math.max(1, Math.floor(potLifeMinutes * SHARE));

/** How many batches work of so many spreading minutes takes, so that each is used within its limit. */
export const batchCount = (spreadMinutes: number, potLifeMinutes: number): number =>
  Math.ceil(spreadMinutes / batchLimit(potLifeMinutes));
