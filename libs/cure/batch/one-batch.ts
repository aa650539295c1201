import { lawOf } from '../material/law.ts';
import type { CureMaterial } from '../material/material.ts';
import { potLifeOf } from './pot-life.ts';
import { shown } from './words.ts';

export interface OneBatchInput {
  readonly material: CureMaterial;
  /** Of the resin. */
  readonly celsius: number;
  readonly mixGrams: number;
  readonly filmMm: number | null;
  /** Head-counts that the step allows. */
  readonly hands: readonly number[];
  /** How long so many hands take to spread all of it. */
  readonly spreadMinutes: (hands: number) => number;
  /** How much of the pot life may pass until it is spread, 0 to 1; all of it if left out. */
  readonly share?: number;
}

/** What would let it be spread in one batch, each by itself; null where none does. */
export interface OneBatch {
  readonly words: string;
  readonly hands: number | null;
  readonly celsius: number | null;
  readonly percent: number | null;
}

const MOST_HANDS = 20;
const DEGREES = 0.5;
const PERCENT = 0.05;

const people = (hands: number): string =>
  `${String(hands)} ${hands === 1 ? 'pair' : 'pairs'} of hands`;

/** The warmest temperature below, on half degrees, at which it would do; of what is too cold, the least. */
function coolEnough(celsius: number, low: number, high: number, does: (c: number) => boolean) {
  if (celsius < low) return does(low) ? low : null;
  const from = Math.floor(Math.min(celsius, high) / DEGREES) * DEGREES;
  for (let c = from; c >= low; c -= DEGREES) if (does(c)) return c;
  return null;
}

/** The most hardener, less than now, with which it would do. */
function slowEnough(material: CureMaterial, does: (slower: CureMaterial) => boolean) {
  const { hardener } = material;
  if (hardener?.kind !== 'percent' || hardener.effect === null) return null;
  const least = hardener.block[0];
  const steps = Math.floor((hardener.used - least) / PERCENT + 1e-9);
  for (let k = 1; k <= steps; k++) {
    const used = Math.round((hardener.used - k * PERCENT) * 100) / 100;
    if (used > 0 && does({ ...material, hardener: { ...hardener, used } })) return used;
  }
  return null;
}

/**
 * Null where some head-count that is allowed spreads the whole batch in time; else the fewest
 * hands, the warmest cooler temperature (the minimum, where it is colder) and the most hardener
 * that would do. Throws `cure.missing` where the sheet has no pot life.
 */
export function oneBatch(input: OneBatchInput): OneBatch | null {
  const { material, celsius, mixGrams, filmMm, hands, spreadMinutes, share = 1 } = input;
  lawOf(material, 'pot-life');
  const quickest = Math.min(...hands.map(spreadMinutes));
  const limitOf = (mixed: CureMaterial, c: number): number =>
    share * (potLifeOf(mixed, c, mixGrams, filmMm) ?? 0);
  const limit = limitOf(material, celsius);
  if (quickest <= limit) return null;
  const { minimumC, maximumC } = material.limits;
  const more = Array.from({ length: MOST_HANDS }, (_, k) => k + 1).find(
    (count) => spreadMinutes(count) <= limit,
  );
  const cooler = coolEnough(
    celsius,
    minimumC.value,
    maximumC.value,
    (c) => quickest <= limitOf(material, c),
  );
  const percent = slowEnough(material, (slower) => quickest <= limitOf(slower, celsius));
  const ways = [
    more === undefined ? '' : `with ${people(more)}`,
    cooler === null ? '' : `at ${shown(cooler, 1)} °C`,
    percent === null ? '' : `with ${shown(percent, 2)} % hardener`,
  ].filter((way) => way !== '');
  const lasts =
    limit === 0
      ? `may not be mixed at ${shown(celsius, 1)} °C`
      : `has to be spread within ${shown(Math.floor(limit))} min at ${shown(celsius, 1)} °C`;
  const crew = people(Math.max(...hands));
  return {
    words:
      `${shown(mixGrams)} g of ${material.name} in one batch ${lasts}, and ${crew} take ${shown(Math.ceil(quickest))} min: ` +
      (ways.length === 0
        ? `neither ${String(MOST_HANDS)} pairs of hands nor ${celsius < minimumC.value ? 'warming' : 'cooling'} nor less hardener would do; lay it in laps`
        : `it would do ${ways.join(', or ')}`),
    hands: more ?? null,
    celsius: cooler,
    percent,
  };
}
