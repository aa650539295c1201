import { conversionClock, conversionRate } from '../kinetics/conversion.ts';
import { lawOf, timeScale } from '../material/law.ts';
import type { CureLaw, CureMaterial, Milestone, Side } from '../material/material.ts';
import { kinksOf, rateOf, withinReason, type Reckoning } from '../material/rate.ts';
import { ageAt, firstMinuteAt, type EquivalentAge } from './equivalent-age.ts';
import { equivalentAge } from './integrate.ts';
import { constantSeries, type TemperatureBand, type TemperatureSeries } from './series.ts';
import { wholeMinute, wholeOf } from './whole-minute.ts';

/** A film laid at minute t has reached the milestone when the age is that of t plus 1. */
interface ByAge {
  readonly kind: 'age';
  readonly age: EquivalentAge;
}

/** A conversion whose rate depends on how far it has come: each film is integrated on its own. */
interface ByConversion {
  readonly kind: 'conversion';
  /** The real minute at which a film laid at a minute is there; Infinity if never. */
  readonly reached: (laid: number) => number;
  /** The first temperature, which holds since ever, never brings it there. */
  readonly stalledBefore: boolean;
}

/** When films (or cups) of one material in one climate reach one milestone, as a side reckons. */
export interface CureClock<S extends Reckoning = Side> {
  readonly material: string;
  readonly milestone: Milestone;
  readonly side: S;
  readonly start: number;
  readonly by: ByAge | ByConversion;
}

const SERIES = { open: 'cold', close: 'warm', expected: 'expected' } as const;

/** Nowhere colder than that; lines between held knots are nowhere colder than lines held. */
const heldAt = (series: TemperatureSeries, celsius: number): TemperatureSeries => ({
  ...series,
  celsius: Float64Array.from(series.celsius, (c) => Math.max(c, celsius)),
});

function byLaw(
  law: CureLaw,
  side: Reckoning,
  series: TemperatureSeries,
  { limits }: CureMaterial,
  scale: number,
): ByAge | ByConversion {
  const minimumC = limits.minimumC.value;
  if (law.kind !== 'conversion') {
    const settings = { maximumC: limits.maximumC.value, scale };
    const rate = rateOf(law, side, minimumC, settings);
    return { kind: 'age', age: equivalentAge(rate, series, kinksOf(law, minimumC, settings)) };
  }
  // `withinReason` knows what a closing does below the minimum; else its series is held there.
  const stallsBelow = side === 'close' ? -Infinity : minimumC;
  const rate = conversionRate(law, stallsBelow, scale);
  if (rate !== null) {
    const age = equivalentAge(withinReason(rate, side, minimumC), series, [minimumC]);
    return { kind: 'age', age };
  }
  const held = side === 'close' ? heldAt(series, minimumC) : series;
  const first = conversionClock(law, constantSeries(held.celsius[0]), stallsBelow, scale);
  return {
    kind: 'conversion',
    reached: conversionClock(law, held, stallsBelow, scale),
    stalledBefore: first(0) === Infinity,
  };
}

/**
 * The clock of a milestone. An opening runs on the coldest that the temperatures may be and on
 * the longest times, a closing on the warmest and the shortest; an expectation on neither.
 * Throws `cure.missing`, naming the line of the data sheet that has no number, and
 * `cure.hardener` for a percentage out of its range.
 */
export function cureClock<S extends Reckoning>(
  material: CureMaterial,
  milestone: Milestone,
  side: S,
  band: TemperatureBand,
): CureClock<S> {
  const law = lawOf(material, milestone);
  const series = band[SERIES[side]];
  const by = byLaw(law, side, series, material, timeScale(material, law, side));
  return { material: material.id, milestone, side, start: series.start, by };
}

/**
 * The minute at which a film laid at the whole minute `laid` reaches the milestone: an opening
 * rounded up, a closing down. Null if never, which happens only when the history's last
 * temperature (it holds for ever) stalls the cure. Non-decreasing in `laid`, counting null as
 * last.
 */
export function reachedAt({ by, side }: CureClock<Reckoning>, laid: number): number | null {
  return by.kind === 'age'
    ? wholeMinute(by.age, side, ageAt(by.age, laid) + 1)
    : wholeOf(side, by.reached(laid));
}

/** Whether a film of a minute is there by the wanted one, which fewer later films are. */
const inTime = (clock: CureClock<Reckoning>, laid: number, wanted: number): boolean => {
  const reached = reachedAt(clock, laid);
  return reached !== null && reached <= wanted;
};

/** The last whole minute for which `holds`, which is true before it and false after; found from a guess. */
function lastThat(holds: (minute: number) => boolean, guess: number): number {
  let good = guess;
  let bad = guess;
  if (holds(guess)) {
    for (let width = 1; holds((bad = good + width)); width *= 2) good = bad;
  } else {
    for (let width = 1; !holds((good = bad - width)); width *= 2) bad = good;
  }
  while (bad - good > 1) {
    const mid = good + Math.floor((bad - good) / 2);
    if (holds(mid)) good = mid;
    else bad = mid;
  }
  return good;
}

/**
 * The latest minute at which a film can be laid so that `reachedAt` is no later than `wanted`:
 * how late a coat can be for work that must find it open. Null if there is none, which happens
 * only when the history's first temperature stalls the cure.
 */
export function latestStart(clock: CureClock<Reckoning>, wanted: number): number | null {
  const { by, start } = clock;
  const stalled = by.kind === 'age' ? by.age.before === 0 : by.stalledBefore;
  if (stalled && !inTime(clock, Math.ceil(start), wanted)) return null;
  const guess =
    by.kind === 'age' ? Math.floor(firstMinuteAt(by.age, ageAt(by.age, wanted) - 1)) : wanted;
  return lastThat((laid) => inTime(clock, laid, wanted), guess);
}

/**
 * The earliest minute at which a film can be laid so that `reachedAt` is no earlier than
 * `wanted`: how early a coat can be for its window still to be open then.
 */
export function earliestStart(clock: CureClock<Reckoning>, wanted: number): number {
  const before = latestStart(clock, wanted - 1);
  return before === null ? -Infinity : before + 1;
}
