import { DomainError } from '#kernel/error.ts';
import type { CureMaterial } from '../material/material.ts';
import type { Cup } from './amounts.ts';
import { potLifeOf } from './pot-life.ts';
import { shown } from './words.ts';

export interface CupsInput {
  readonly material: CureMaterial;
  /** Of the resin, the warmest that it may be during the work. */
  readonly celsius: number;
  readonly mixGrams: number;
  readonly filmMm: number | null;
  /** In which the crew spreads all of it. */
  readonly spreadMinutes: number;
  /** How much of a cup's own pot life may pass until it is spread, 0 to 1. */
  readonly share: number;
}

/** A cup of less is not weighed, and nobody mixes more of them in one piece of work (common practice, no source). */
const SMALLEST_GRAMS = 5;
const MOST = 500;

function refuseNonsense({ mixGrams, spreadMinutes, share }: CupsInput): void {
  const wrong = [
    mixGrams > 0 && Number.isFinite(mixGrams) ? '' : `${String(mixGrams)} g of mix`,
    spreadMinutes > 0 && Number.isFinite(spreadMinutes) ? '' : `${String(spreadMinutes)} min`,
    share > 0 && share <= 1 ? '' : `a share of ${String(share)} of the pot life`,
  ].find((words) => words !== '');
  if (wrong !== undefined) throw new DomainError('input.field', `${wrong} cannot be put into cups`);
}

/**
 * The fewest equal cups (whole grams, that differ by one at most) of which the crew spreads each
 * within `share` of its own pot life: a larger cup has less time, and takes more. Each is mixed
 * when the one before is spread; `spreadBy` is when that share of its pot life is over. None
 * where the material has no pot life at that temperature. Throws `cure.batch` where it would
 * take cups of less than 5 g, or more than 500 of them.
 */
export function cupsFor(input: CupsInput): Cup[] {
  refuseNonsense(input);
  const { material, celsius, filmMm, spreadMinutes, share } = input;
  const total = Math.max(1, Math.round(input.mixGrams));
  const lifeOf = (grams: number): number | null => potLifeOf(material, celsius, grams, filmMm);
  if (lifeOf(total) === null) return [];
  const minutesOf = (grams: number): number => (grams / total) * spreadMinutes;
  const inTime = (cups: number): boolean => {
    const grams = Math.ceil(total / cups);
    return minutesOf(grams) <= share * (lifeOf(grams) ?? 0);
  };
  const most = Math.min(MOST, Math.max(1, Math.floor(total / SMALLEST_GRAMS)));
  if (!inTime(most)) {
    throw new DomainError(
      'cure.batch',
      `${material.name} gels faster than it can be spread at ${shown(celsius, 1)} °C: ${shown(total)} g in ${shown(spreadMinutes)} min is too slow even for ${String(most)} ${most === 1 ? 'cup' : 'cups'} of ${shown(total / most)} g`,
    );
  }
  // A smaller cup never does worse, so that the fewest is found by halving.
  let [few, enough] = [0, most];
  while (enough - few > 1) {
    const mid = (few + enough) >> 1;
    if (inTime(mid)) enough = mid;
    else few = mid;
  }
  const small = Math.floor(total / enough);
  const larger = total - small * enough;
  const lives = [small, small + 1].map((grams) => lifeOf(grams) ?? 0);
  let mixed = 0;
  return Array.from({ length: enough }, (_, k) => {
    const grams = k < larger ? small + 1 : small;
    const mixAt = minutesOf(mixed);
    const life = lives[grams - small];
    mixed += grams;
    return { grams, mixAt, spreadBy: mixAt + share * life, potLifeEnds: mixAt + life };
  });
}
