import { minutesBefore } from '../../search/crew/compiled/spans.ts';
import type { Problem } from '../../model/problem.ts';
import { freeTimes, minutesIn } from '../crew-hours/capacity.ts';
import { union, type Flat } from '../hours.ts';
import { listOf, spansOfKinds } from './kinds.ts';
import type { Needs } from './pieces.ts';
import type { PieceWindows } from './refute.ts';
import type { Cost } from './vectors.ts';

/** Days with prices of their own at most, and moments by which a refit may be asked to finish. */
const DAYS = 64;
export const CAPS = 160;
/** Prices are whole numbers: so many make one unit of what a finish costs. */
const SCALE = 1 << 16;
const DEAREST = 1 << 20;
/** The first step, of the bound over the square of what is over; what is kept of a step after stale ones. */
const STEP = 0.15;
const SHORTER = 0.6;
const STALE = 25;
const SMALLEST = 1e-5;
/** How much of the last direction goes on. */
const ONWARD = 0.6;

export interface PricedHours {
  /** No plan costs less. */
  readonly bound: number;
  /** Nothing more comes of it while the least finishes stay. */
  readonly done: boolean;
  /** What has been done so far: windows of a cap, changes of all prices, and days looked at to buy work. */
  readonly counts: { readonly windows: number; readonly changes: number; readonly looks: number };
  /** The windows of one more cap, or what one more refit buys at the prices. */
  step(): void;
  /** The least finishes are later now. */
  again(): void;
}

/** One way for a refit: all of it is done by `cap`, and not all of it before `after`. */
interface Option {
  readonly cap: number;
  readonly after: number;
  /** By piece of the refit, minutes of its kind up to the end of its window. */
  readonly ends: Float64Array;
}

/** At most so many of them, evenly, the last always. */
function thinned<T>(all: readonly T[], most: number): T[] {
  const step = Math.max(1, Math.ceil(all.length / most));
  return all.filter((_, i) => (all.length - 1 - i) % step === 0);
}

/** Days until the first that ends after `until`: breaks of all at once part none. */
function daysOf(time: Flat, until: number): [from: number, to: number][] {
  const days: [number, number][] = [];
  for (let i = 0; i < time.length; i += 2) {
    const last = days.at(-1);
    if (last !== undefined && time[i] - last[1] < 60) last[1] = time[i + 1];
    else if (last !== undefined && last[1] >= until) break;
    else days.push([time[i], time[i + 1]]);
  }
  return days;
}

/**
 * Moments of days and the horizon, `CAPS` at most: beginnings and ends of days always, for nobody who has
 * waited for the morning is done at night; of some of the days only where there are too many.
 */
export function capsOf(
  days: readonly (readonly [from: number, to: number])[],
  horizon: number,
): number[] {
  const most = CAPS - 1;
  const some = thinned(days, most >> 1);
  const between = Math.max(1, Math.floor(most / Math.max(1, some.length)) - 1);
  const moments = some.flatMap(([from, to]) =>
    Array.from({ length: between + 1 }, (_, i) => from + Math.round(((to - from) * i) / between)),
  );
  return [...moments.filter((at) => at < horizon), horizon];
}

/**
 * A bound over all refits at once: everybody's hours of every day have a price by kind of work, and each
 * refit by itself chooses when to be finished, its work bought where it is cheapest in the windows
 * that this leaves it. What the refits pay, less what all hours are worth, bounds every plan from
 * below whatever the prices (Lagrangian relaxation; Fisher, Management Science 27, 1981); they follow what is
 * asked for too much, by subgradients. Whole numbers throughout. `least` is read anew each time.
 * Complexity of a step: caps x pieces of a refit x days.
 */
export function pricedHours(
  problem: Problem,
  { kinds, pieces }: Needs,
  windows: PieceWindows,
  least: readonly number[],
  cost: Cost,
  until: number,
): PricedHours {
  const { horizon, refits } = problem;
  const free = freeTimes(problem);
  const spans = spansOfKinds(problem, free, kinds);
  const days = daysOf(
    spans.reduce<Flat>((sum, own) => union(sum, listOf(own)), []),
    until,
  );
  const nights = days.map(([, to]) => to);
  const edges = [0, ...thinned(nights, DAYS).filter((at) => at < horizon), horizon];
  const n = edges.length - 1;
  const reach = spans.map((own) => Float64Array.from(edges, (t) => minutesBefore(own, t)));
  const perDay = (time: (b: number, from: number, to: number) => number): Float64Array[] =>
    free.map((_, b) => Float64Array.from({ length: n }, (_, t) => time(b, edges[t], edges[t + 1])));
  const working = perDay((b, from, to) => minutesIn(free[b].work, from, to));
  const resting = perDay((b, from, to) => minutesIn(free[b].breaks, from, to));
  const begins = pieces.map(({ kind }, p) => minutesBefore(spans[kind], windows.from[p]));
  const own = refits.map((_, r) => pieces.flatMap(({ refit }, p) => (refit === r ? [p] : [])));
  const caps = capsOf(days, horizon);

  const price = new Float64Array(kinds.length * n);
  const kept = new Float64Array(price.length);
  /** What is asked for of each kind on each day, less what there is of it. */
  const over = new Float64Array(price.length);
  const direction = new Float64Array(price.length);
  const cheapest = kinds.map(() => Int32Array.from({ length: n }, (_, t) => t));
  const options: Option[][] = refits.map(() => []);
  const state = { bound: 0, done: false, best: -Infinity, size: STEP, stale: 0, windowed: false };
  const counts = { windows: 0, changes: 0, looks: 0 };

  /** Windows of a refit that has to finish by a cap; nothing where it cannot. */
  const addOption = (r: number, cap: number, after: number): void => {
    const to = windows.latest(refits.map((_, other) => (other === r ? cap : Infinity)));
    if (to === null) return;
    const ends = Float64Array.from(own[r], (p) => minutesBefore(spans[pieces[p].kind], to[p]));
    const fits = own[r].every((p, i) => pieces[p].rate * (ends[i] - begins[p]) >= pieces[p].units);
    if (fits) options[r].push({ cap, after, ends });
  };

  /** The least that a piece can be had for in its window; `bought`: it is, and counted. */
  const buy = (p: number, end: number, bought: boolean): number => {
    const { kind, units, rate } = pieces[p];
    const at = reach[kind];
    let left = units;
    let sum = 0;
    let i = 0;
    for (; i < n && left > 0; i += 1) {
      const t = cheapest[kind][i];
      const minutes = Math.min(at[t + 1], end) - Math.max(at[t], begins[p]);
      if (minutes <= 0) continue;
      const part = Math.min(left, minutes * rate);
      left -= part;
      sum += part * price[kind * n + t];
      if (bought) over[kind * n + t] += part;
    }
    counts.looks += i;
    return sum;
  };

  /** The cheapest way for a refit; Infinity where there is none. */
  const choose = (r: number): number => {
    let best = Infinity;
    let chosen: Option | null = null;
    for (const option of options[r]) {
      if (option.cap < least[r]) continue;
      let sum = SCALE * cost(r, Math.max(option.after, least[r]));
      // Later ones cost at least as much for the finish alone.
      if (sum >= best) break;
      for (let i = 0; i < own[r].length && sum < best; i += 1)
        sum += buy(own[r][i], option.ends[i], false);
      if (sum >= best) continue;
      best = sum;
      chosen = option;
    }
    if (chosen !== null) for (const [i, p] of own[r].entries()) buy(p, chosen.ends[i], true);
    return best;
  };

  /** What a builder's minutes of a day are worth, each used for the dearest kind. */
  const worth = (b: number, t: number, relieved: boolean, minutes: number): number => {
    let value = 0;
    let dearest = -1;
    let rate = 0;
    for (const [k, kind] of kinds.entries()) {
      const i = kind.builders.indexOf(b);
      if (i < 0 || (relieved && !kind.relieved)) continue;
      const own = price[k * n + t] * kind.rates[i];
      if (own <= value) continue;
      value = own;
      dearest = k;
      rate = kind.rates[i];
    }
    if (dearest >= 0) over[dearest * n + t] -= rate * minutes;
    return value * minutes;
  };

  /** What the prices show; over many refits at once it would be too long to be stopped in time. */
  function* total(): Generator<undefined, number> {
    cheapest.forEach((order, k) => {
      order.sort((s, t) => price[k * n + s] - price[k * n + t] || s - t);
    });
    over.fill(0);
    let sum = 0;
    for (let r = 0; r < refits.length; r += 1) {
      sum += choose(r);
      yield;
    }
    for (let b = 0; b < free.length; b += 1)
      for (let t = 0; t < n; t += 1)
        sum -= worth(b, t, false, working[b][t]) + worth(b, t, true, resting[b][t]);
    return sum;
  }

  /** Prices follow what is asked for too much; false where nothing is. */
  const move = (): boolean => {
    let norm = 0;
    for (let i = 0; i < direction.length; i += 1) {
      const next = over[i] + ONWARD * direction[i];
      direction[i] = price[i] <= 0 && next < 0 ? 0 : next;
      norm += direction[i] * direction[i];
    }
    if (norm === 0) return false;
    const step = (state.size * Math.max(SCALE, state.best)) / norm;
    for (let i = 0; i < price.length; i += 1)
      price[i] = Math.min(DEAREST, Math.max(0, Math.round(price[i] + step * direction[i])));
    return true;
  };

  function* setUp(): Generator<undefined> {
    for (let r = 0; r < refits.length; r += 1) {
      options[r] = [];
      for (let i = 0, after = 0; i < caps.length; after = caps[i] + 1, i += 1) {
        if (caps[i] < least[r]) continue;
        addOption(r, caps[i], after);
        counts.windows += 1;
        yield;
      }
    }
    state.windowed = true;
  }

  function* work(): Generator<undefined> {
    if (!state.windowed) yield* setUp();
    for (;;) {
      const sum = yield* total();
      // No cap of some refit can be kept: it is for others to say that there is no plan.
      if (sum === Infinity) return;
      if (sum > state.best) {
        state.best = sum;
        state.stale = 0;
        state.bound = Math.max(state.bound, Math.ceil(sum / SCALE));
        kept.set(price);
      } else {
        state.stale += 1;
        if (state.stale > STALE) {
          state.stale = 0;
          state.size *= SHORTER;
          price.set(kept);
          direction.fill(0);
          yield* total();
        }
      }
      if (!move() || state.size < SMALLEST) state.done = true;
      counts.changes += 1;
      yield;
    }
  }
  let running = work();
  return {
    counts,
    get bound() {
      return state.bound;
    },
    get done() {
      return state.done;
    },
    step() {
      if (!state.done && running.next().done === true) state.done = true;
    },
    again() {
      // What was added up so far was at other prices.
      running = work();
      price.set(kept);
      direction.fill(0);
      Object.assign(state, { done: false, best: -Infinity, size: STEP, stale: 0 });
    },
  };
}
