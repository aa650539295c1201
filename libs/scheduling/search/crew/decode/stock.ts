import { random as seeded } from '#kernel/random.ts';
import type { Compiled } from '../compiled/compiled.ts';
import type { Genome } from './genome.ts';

/** Modes chosen so that what all consume fits the stocks. */
export interface StockModes {
  /** By activity; -1 where the decode is free to choose. */
  readonly mode: Int16Array;
  /** Chooses modes for what is present, near those of the genome; false where none were found to fit. */
  choose(genome: Genome, present: Uint8Array): boolean;
}

/** Changes tried for each activity before giving up, and how long one stays changed. */
const CHANGES = 40;
const TENURE = 3;

/**
 * Modes are repaired one at a time: the change that leaves least excess, ties broken by chance, what
 * was just changed being left alone for a while (tabu search). The chance is its own and goes on from
 * one choice to the next, so that one genome may be given several repairs. Null where nothing is
 * consumed.
 */
export function stockModes(compiled: Compiled): StockModes | null {
  const { activities, problem } = compiled;
  const totals = problem.stocks.map(({ total }) => total);
  const stocked = activities.flatMap(({ consumes }, a) => (consumes ? [a] : []));
  if (stocked.length === 0) return null;
  const n = activities.length;
  const able = activities.map(({ modes, frozen }) => {
    if (frozen !== null) return [frozen.mode];
    const possible = modes.flatMap((mode, m) =>
      mode.crews === null || mode.crews.length > 0 ? [m] : [],
    );
    return possible.length > 0 ? possible : modes.map((_, m) => m);
  });
  const mode = new Int16Array(n).fill(-1);
  const used = new Float64Array(totals.length);
  const until = new Int32Array(n);
  const random = seeded(1);
  let present: Uint8Array = new Uint8Array(n);

  const add = (a: number, m: number, sign: number): void => {
    const { consumes } = activities[a].modes[m];
    for (let k = 0; k < consumes.length; k += 1) used[k] += sign * consumes[k];
  };
  const excess = (): number => {
    let sum = 0;
    for (let k = 0; k < totals.length; k += 1)
      if (used[k] > totals[k]) sum += (used[k] - totals[k]) / Math.max(1, totals[k]);
    return sum;
  };

  const change = (step: number): void => {
    let from = -1;
    let to = -1;
    let least = Infinity;
    for (const a of stocked) {
      if (present[a] === 0 || able[a].length < 2 || until[a] > step) continue;
      const old = mode[a];
      add(a, old, -1);
      for (const m of able[a]) {
        if (m === old) continue;
        add(a, m, 1);
        const value = excess() + 1e-4 * random.unit();
        add(a, m, -1);
        if (value >= least) continue;
        least = value;
        from = a;
        to = m;
      }
      add(a, old, 1);
    }
    if (from < 0) return;
    add(from, mode[from], -1);
    mode[from] = to;
    add(from, to, 1);
    until[from] = step + 1 + TENURE;
  };

  return {
    mode,
    choose(genome, here) {
      present = here;
      used.fill(0);
      until.fill(0);
      mode.fill(-1);
      for (const a of stocked) {
        if (present[a] === 0) continue;
        const wished = genome.mode[a];
        mode[a] = able[a].includes(wished) ? wished : able[a][0];
        add(a, mode[a], 1);
      }
      for (let step = 0; step < CHANGES * stocked.length; step += 1) {
        if (excess() === 0) return true;
        change(step);
      }
      return excess() === 0;
    },
  };
}
