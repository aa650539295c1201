import type { Alike } from './alike.ts';
import { copyDomains, emptyDomains, keep, settleOn, type Domains } from './domains.ts';
import type { Joint } from './joint.ts';
import type { Row } from './pairs.ts';
import type { Propagation } from './propagate.ts';
import type { Shared } from './shared.ts';
import type { World } from './world.ts';

export interface Tools {
  readonly world: World;
  readonly shared: Shared;
  readonly row: Row;
  readonly rules: Joint;
  readonly propagation: Propagation;
  readonly alike: Alike;
}

export interface Dive {
  /** Looks at so many nodes at most, and says at how many. */
  run(nodes: number): number;
  readonly done: boolean;
}

/**
 * Depth-first search of one world from `root`. A node places the activity that can start first,
 * at its earliest; then, in the same frame, without that candidate. Starts are not restricted to
 * the earliest ones, but of two plans that differ in one activity's start alone the one where it
 * is earlier is at least as good. So once it is certain that a candidate that was put off
 * would have gone with everything else, later ones of the same way are left out: among the best
 * plans there is one with the least sum of starts, and it has no such activity.
 * `limits` are the most that each rank may be and may tighten while the search runs; ranks after
 * `rank` do not matter, and that is worth `bound` at least here. `found` is given the domains of each plan.
 */
export function dive(
  { world, shared, row, rules, propagation, alike }: Tools,
  root: Domains,
  limits: Readonly<Float64Array>,
  rank: number,
  bound: number,
  found: (domains: Domains) => void,
): Dive {
  const n = world.domains.length;
  const frames: Domains[] = [emptyDomains(world)];
  copyDomains(root, frames[0]);
  let depth = 0;
  const owner = new Int32Array(world.wayCount);
  world.ways.forEach((ways, k) => {
    for (const way of ways) owner[way] = k;
  });

  /** The candidate before each of the same way, or -1. */
  const earlier = world.ways.map((ways) => {
    const last = new Map<number, number>();
    return Int32Array.from(ways, (way, c) => {
      const before = last.get(way) ?? -1;
      last.set(way, c);
      return before;
    });
  });

  const put = (d: Domains, k: number, c: number): boolean => {
    settleOn(world, d, k, c);
    return propagation.place(d, k) && rules.fits(d);
  };

  /** Whether the placed would still stand together with `k` at `c`, wherever it is now. */
  const wouldFit = (d: Domains, k: number, c: number): boolean => {
    const { placed, minStart, minFinish } = d;
    const before = [placed[k], minStart[k], minFinish[k]];
    placed[k] = c;
    minStart[k] = world.starts[k][c];
    minFinish[k] = world.finishes[k][c];
    const fits = rules.fits(d);
    [placed[k], minStart[k], minFinish[k]] = before;
    return fits;
  };

  const alone = emptyDomains(world);
  const known = world.domains.map(({ length }) => new Int8Array(length));
  /** A resource may be too scarce for it, or its part elsewhere, whoever else is placed. */
  const fitsAlone = (k: number, c: number): boolean => {
    if (known[k][c] === 0) known[k][c] = wouldFit(alone, k, c) ? 1 : -1;
    return known[k][c] === 1;
  };

  /** Whether candidate `c` of `k` goes with all others that are placed. */
  const isFree = (d: Domains, k: number, c: number): boolean => {
    for (let other = 0; other < n; other += 1)
      if (other !== k && d.placed[other] >= 0 && row(other, d.placed[other], k)[c] === 0)
        return false;
    if (!propagation.allows(d, k, c)) return false;
    return shared.jointly[k].size === 0 ? fitsAlone(k, c) : wouldFit(d, k, c);
  };

  /** Whether it goes with whatever is left of the others; it is known to be free. */
  const isCertain = (d: Domains, k: number, c: number): boolean => {
    for (const other of shared.jointly[k]) if (d.placed[other] < 0) return false;
    for (let other = 0; other < n; other += 1) {
      if (other === k || d.placed[other] >= 0) continue;
      const own = row(k, c, other);
      const live = d.live[other];
      for (let i = 0; i < d.count[other]; i += 1) if (own[live[i]] === 0) return false;
    }
    return true;
  };

  /** No better than `c`, which is of the same way and earlier. */
  const isNoBetter = (k: number, c: number, later: number): boolean => {
    const one = world.domains[k][c];
    const other = world.domains[k][later];
    return (rank < 2 || one.money <= other.money) && (rank < 3 || one.moved <= other.moved);
  };

  /** Whether something placed could certainly have been placed earlier. */
  const isIdle = (d: Domains): boolean => {
    for (let k = 0; k < n; k += 1) {
      const c = d.placed[k];
      const c1 = c < 0 ? -1 : earlier[k][c];
      if (c1 >= 0 && isNoBetter(k, c1, c) && isFree(d, k, c1) && isCertain(d, k, c1)) return true;
    }
    return false;
  };

  /** Looks again at what was put off: it may be in something's way now, or certain to be in none. */
  const review = (d: Domains): boolean => {
    for (let way = 0; way < owner.length; way += 1) {
      const c = d.putOff[way];
      if (c < 0) continue;
      const k = owner[way];
      if (d.placed[k] >= 0 || !isFree(d, k, c)) {
        d.putOff[way] = -1;
        continue;
      }
      if (!isCertain(d, k, c)) continue;
      const ways = world.ways[k];
      const stays = (later: number): boolean => ways[later] !== way || !isNoBetter(k, c, later);
      if (keep(world, d, k, stays) < 0) return false;
    }
    return true;
  };

  /** Places whatever has one place left; -1 where that does not fit, else how many. */
  const force = (d: Domains): number => {
    let forced = 0;
    for (let k = 0; k < n; k += 1) {
      if (d.placed[k] >= 0 || d.count[k] > 1) continue;
      if (!put(d, k, d.live[k][0])) return -1;
      forced += 1;
    }
    return forced;
  };

  const settle = (d: Domains): boolean => {
    for (;;) {
      if (!propagation.settle(d, limits)) return false;
      if (!review(d)) return false;
      const forced = force(d);
      if (forced < 0) return false;
      if (forced === 0) return !isIdle(d);
    }
  };

  /** The activity to place, and in `candidate` where. */
  let candidate = -1;
  const select = (d: Domains): number => {
    let best = -1;
    let bestStart = Infinity;
    let bestSlack = Infinity;
    for (const waiting of [false, true]) {
      for (let k = 0; k < n; k += 1) {
        if (d.placed[k] >= 0) continue;
        const live = d.live[k];
        for (let i = 0; i < d.count[k]; i += 1) {
          const start = world.starts[k][live[i]];
          if (start > bestStart) break;
          if (!waiting && d.putOff[world.ways[k][live[i]]] >= 0) continue;
          const slack = d.maxStart[k];
          if (start === bestStart && slack >= bestSlack) break;
          best = k;
          bestStart = start;
          bestSlack = slack;
          candidate = live[i];
          break;
        }
      }
      if (best >= 0) return best;
    }
    return best;
  };

  /** The frame has been settled, and lost a candidate that did not fit since. */
  let again = false;

  /** One node: a frame is settled, and the next one is opened for a placement; or it goes back. */
  const node = (): void => {
    const d = frames[depth];
    if (!again && !settle(d)) {
      depth -= 1;
      return;
    }
    again = false;
    const k = select(d);
    if (k < 0) {
      found(d);
      depth -= 1;
      return;
    }
    const c = candidate;
    if (frames.length === depth + 1) frames.push(emptyDomains(world));
    const next = frames[depth + 1];
    copyDomains(d, next);
    const same = alike(d, k, c);
    const fits = put(next, k, c);
    const ways = world.ways[k];
    if (fits) for (const one of same) d.putOff[ways[one]] = one;
    const left = keep(world, d, k, (one) => !same.includes(one)) >= 0;
    if (!fits) {
      if (left) again = true;
      else depth -= 1;
      return;
    }
    // Where nothing else is left of this frame, the next one takes its place.
    if (left) depth += 1;
    else [frames[depth], frames[depth + 1]] = [next, d];
  };

  const isDone = (): boolean => depth < 0 || bound > limits[rank];

  return {
    run(nodes) {
      let used = 0;
      while (!isDone() && used < nodes) {
        used += 1;
        node();
      }
      return used;
    },
    get done() {
      return isDone();
    },
  };
}
