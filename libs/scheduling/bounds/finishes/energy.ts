import type { Problem } from '../../model/problem.ts';
import { minutesBefore, type Spans } from '../../search/crew/compiled/spans.ts';
import { freeTimes } from '../crew-hours/capacity.ts';
import { indexed, union, type Flat } from '../hours.ts';
import type { Kind, Needs, Piece } from './pieces.ts';

/** Whether pieces of work in their windows ask for more than the crew has in some span of time. */
export interface Energy {
  /**
   * `from[p]`, `to[p]`: the window of a piece; Infinity at the latter leaves the piece out. True where
   * the pieces cannot all be done.
   */
  overloaded(from: Float64Array, to: Float64Array): boolean;
}

/** Cuts at most: between them whole nights, or several days where there are many. */
const CUTS = 48;
/** Sets of kinds tried at most. */
const SETS = 40;

const listOf = ({ count, starts, ends }: Spans): number[] => {
  const flat: number[] = [];
  for (let i = 0; i < count; i += 1) flat.push(starts[i], ends[i]);
  return flat;
};

/**
 * Kinds that share their people: of unions of crews all kinds that they can do, with relieved work or
 * without; no more than `SETS`.
 */
function setsOf(kinds: readonly Kind[]): number[][] {
  const crews = new Map<string, ReadonlySet<number>>();
  const sets = new Map<string, number[]>();
  const add = (builders: Iterable<number>): void => {
    const crew = new Set([...builders].sort((a, b) => a - b));
    const key = [...crew].join();
    if (crews.has(key)) return;
    crews.set(key, crew);
    const able = kinds.flatMap((kind, k) => (kind.builders.every((b) => crew.has(b)) ? [k] : []));
    for (const set of [able, able.filter((k) => !kinds[k].relieved)])
      if (set.length > 0) sets.set(set.join(), set);
  };
  for (const { builders } of kinds) add(builders);
  for (const first of [...crews.values()]) {
    for (const second of [...crews.values()]) {
      if (sets.size >= SETS) break;
      add([...first, ...second]);
    }
  }
  add(kinds.flatMap(({ builders }) => builders));
  return [...sets.values()].slice(0, SETS);
}

/**
 * Energetic reasoning over working days (Erschler & Lopez, "Energy-based approach for task
 * scheduling under time and resources constraints", 2nd Int. Workshop on Project Management and
 * Scheduling, 1990): in every span of whole days, what each piece must do there even if as much of
 * it as can be is done before and after, against what everybody who can do such work could do.
 * Whole numbers throughout. Complexity: pieces x the days in their windows + days squared x sets.
 */
export function energyOf(problem: Problem, { kinds, pieces }: Needs): Energy {
  const free = freeTimes(problem);
  const resting = (b: number, relieved: boolean): Flat =>
    relieved ? union(listOf(free[b].work), listOf(free[b].breaks)) : listOf(free[b].work);
  // When anybody can work on a kind.
  const spans = kinds.map(({ builders, relieved }) =>
    indexed(
      problem,
      builders.reduce<Flat>((sum, b) => union(sum, resting(b, relieved)), []),
    ),
  );
  const days = kinds.reduce<Flat>((sum, _, k) => union(sum, listOf(spans[k])), []);
  // Breaks of all at once cut no day: a night is an hour at least.
  const nights: number[] = [];
  for (let i = 1; i < days.length; i += 2)
    if (i + 1 >= days.length || days[i + 1] - days[i] >= 60) nights.push(days[i]);
  const sets = setsOf(kinds);

  /** Units that the crew of a set can do before a moment, each builder at the best speed. */
  const worth = (set: readonly number[], t: number): number => {
    let sum = 0;
    problem.builders.forEach((_, b) => {
      let working = 0;
      let through = 0;
      for (const k of set) {
        const i = kinds[k].builders.indexOf(b);
        if (i < 0) continue;
        working = Math.max(working, kinds[k].rates[i]);
        if (kinds[k].relieved) through = Math.max(through, kinds[k].rates[i]);
      }
      if (working > 0) sum += working * minutesBefore(free[b].work, t);
      if (through > 0) sum += through * minutesBefore(free[b].breaks, t);
    });
    return sum;
  };

  let cuts: number[] = [];
  let capacity: Float64Array[] = [];
  let reach: Float64Array[] = [];
  let grid = new Float64Array(0);
  let until = -1;
  /** Cuts up to the first night after `last`. */
  const cutUpTo = (last: number): void => {
    const count = nights.findIndex((night) => night >= last) + 1;
    const wanted = count === 0 ? nights.length : count;
    if (wanted === until) return;
    until = wanted;
    const step = Math.max(1, Math.ceil(wanted / CUTS));
    cuts = [0];
    for (let i = wanted - 1; i >= 0; i -= step) cuts.splice(1, 0, nights[i]);
    capacity = sets.map((set) => Float64Array.from(cuts, (t) => worth(set, t)));
    reach = spans.map((own) => Float64Array.from(cuts, (t) => minutesBefore(own, t)));
    grid = new Float64Array(kinds.length * cuts.length * cuts.length);
  };

  /** Adds to the grid what a piece must do in each span [cut i, cut j), as differences along i and j. */
  const add = ({ kind, units, rate }: Piece, from: number, to: number): boolean => {
    const n = cuts.length;
    const own = reach[kind];
    const begin = minutesBefore(spans[kind], from);
    const end = minutesBefore(spans[kind], to);
    if (rate * (end - begin) < units) return false;
    let first = 0;
    while (first + 1 < n && cuts[first + 1] <= from) first += 1;
    let last = n - 1;
    while (last > 0 && cuts[last - 1] >= to) last -= 1;
    const base = kind * n * n;
    // What must be done in [cut i, cut j): all but what fits before and after.
    const must = (i: number, j: number): number => {
      const before = i <= first ? 0 : rate * Math.max(0, own[i] - begin);
      const after = j >= last ? 0 : rate * Math.max(0, end - own[j]);
      return Math.max(0, units - before - after);
    };
    for (let i = first; i < n; i += 1) {
      const row = must(i, last);
      if (row === 0) break;
      for (let j = last; j > i; j -= 1) {
        const here = must(i, j);
        if (here === 0) break;
        // Second difference: what row i + 1 and column j - 1 do not have already.
        const delta =
          here -
          (i + 1 < j ? must(i + 1, j) : 0) -
          (j - 1 > i ? must(i, j - 1) : 0) +
          (i + 1 < j - 1 ? must(i + 1, j - 1) : 0);
        grid[base + i * n + j] += delta;
      }
    }
    return true;
  };

  const exceeded = (): boolean => {
    const n = cuts.length;
    for (let k = 0; k < kinds.length; k += 1) {
      const base = k * n * n;
      // Row i stands for all earlier ones, column j for all later ones.
      for (let i = n - 1; i >= 0; i -= 1) {
        let run = 0;
        for (let j = i + 1; j < n; j += 1) {
          run += grid[base + i * n + j];
          grid[base + i * n + j] = run + (i + 1 < n ? grid[base + (i + 1) * n + j] : 0);
        }
      }
    }
    for (let s = 0; s < sets.length; s += 1) {
      const room = capacity[s];
      for (let i = 0; i < n; i += 1)
        for (let j = i + 1; j < n; j += 1) {
          let sum = 0;
          for (const k of sets[s]) sum += grid[k * n * n + i * n + j];
          if (sum > room[j] - room[i]) return true;
        }
    }
    return false;
  };

  return {
    overloaded(from, to) {
      let last = 0;
      for (let p = 0; p < pieces.length; p += 1) if (to[p] < Infinity) last = Math.max(last, to[p]);
      cutUpTo(last);
      grid.fill(0);
      for (let p = 0; p < pieces.length; p += 1)
        if (to[p] < Infinity && !add(pieces[p], from[p], to[p])) return true;
      return exceeded();
    },
  };
}
