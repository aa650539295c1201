import type { World } from './world.ts';

/**
 * Where each activity may still be, by local index. `live[k]` holds the first `count[k]`
 * candidates that are left, ascending; one that is placed has only its own.
 */
export interface Domains {
  readonly live: readonly Int32Array[];
  readonly count: Int32Array;
  /** The candidate where it is placed, or -1. */
  readonly placed: Int32Array;
  /** By way: its earliest candidate where that was put off and nothing placed is in its way; or -1. */
  readonly putOff: Int32Array;
  readonly minStart: Int32Array;
  readonly maxStart: Int32Array;
  readonly minFinish: Int32Array;
  readonly maxFinish: Int32Array;
}

export function emptyDomains({ domains, wayCount }: World): Domains {
  const n = domains.length;
  return {
    live: domains.map(({ length }) => new Int32Array(length)),
    count: new Int32Array(n),
    placed: new Int32Array(n).fill(-1),
    putOff: new Int32Array(wayCount).fill(-1),
    minStart: new Int32Array(n),
    maxStart: new Int32Array(n),
    minFinish: new Int32Array(n),
    maxFinish: new Int32Array(n),
  };
}

export function fullDomains(world: World): Domains {
  const all = emptyDomains(world);
  world.domains.forEach(({ length }, k) => {
    for (let i = 0; i < length; i += 1) all.live[k][i] = i;
    all.count[k] = length;
    measure(world, all, k);
  });
  return all;
}

export function copyDomains(from: Domains, to: Domains): void {
  to.count.set(from.count);
  for (let k = 0; k < from.live.length; k += 1)
    to.live[k].set(from.live[k].subarray(0, from.count[k]));
  to.placed.set(from.placed);
  to.putOff.set(from.putOff);
  to.minStart.set(from.minStart);
  to.maxStart.set(from.maxStart);
  to.minFinish.set(from.minFinish);
  to.maxFinish.set(from.maxFinish);
}

/** Renews the least and greatest moments of `k`; false where nothing is left. */
export function measure(world: World, domains: Domains, k: number): boolean {
  const count = domains.count[k];
  if (count === 0) return false;
  const live = domains.live[k];
  const finishes = world.finishes[k];
  let least = Infinity;
  let most = -Infinity;
  for (let i = 0; i < count; i += 1) {
    const finish = finishes[live[i]];
    if (finish < least) least = finish;
    if (finish > most) most = finish;
  }
  // Candidates are in the order of their starts.
  domains.minStart[k] = world.starts[k][live[0]];
  domains.maxStart[k] = world.starts[k][live[count - 1]];
  domains.minFinish[k] = least;
  domains.maxFinish[k] = most;
  return true;
}

/** Keeps the candidates that pass; -1 where none is left, else whether any went (1). */
export function keep(
  world: World,
  domains: Domains,
  k: number,
  passes: (candidate: number) => boolean,
): number {
  const live = domains.live[k];
  const count = domains.count[k];
  let kept = 0;
  for (let i = 0; i < count; i += 1) if (passes(live[i])) live[kept++] = live[i];
  if (kept === count) return 0;
  domains.count[k] = kept;
  return measure(world, domains, k) ? 1 : -1;
}

/** Places `k` at its candidate `c`. */
export function settleOn(world: World, domains: Domains, k: number, c: number): void {
  domains.placed[k] = c;
  domains.live[k][0] = c;
  domains.count[k] = 1;
  measure(world, domains, k);
}
