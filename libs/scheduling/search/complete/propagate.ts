import { crowding } from './crowding.ts';
import { keep, type Domains } from './domains.ts';
import type { Row } from './pairs.ts';
import type { Shared } from './shared.ts';
import type { Supply } from './supply.ts';
import type { Worth } from './worth.ts';
import type { Link, World } from './world.ts';

/** Takes candidates away until no rule takes any more; false where an activity has none left. */
export interface Propagation {
  /** After `k` was placed. */
  place(domains: Domains, k: number): boolean;
  /** What holds between all that is left. */
  settle(domains: Domains, limits: Readonly<Float64Array>): boolean;
  /** Whether what is left of the others leaves candidate `c` of `k` its place. */
  allows(domains: Domains, k: number, c: number): boolean;
}

/**
 * Crowding costs ten times what all else does, and pays only near the root: measured on made-up
 * problems of 8 and 12 activities, where more are placed it saves less than it takes.
 */
const SHALLOW = 2;

export function propagation(
  world: World,
  shared: Shared,
  row: Row,
  resources: Supply,
  values: Worth,
): Propagation {
  const { problem, domains: candidates, links, starts, finishes } = world;
  const n = candidates.length;
  /** Stocks of which there may be too little. */
  const stocks = problem.stocks
    .map(({ total }, stock) => ({
      total,
      amounts: candidates.map((domain) =>
        Float64Array.from(domain, ({ way }) =>
          way.work.consumes.reduce((sum, one) => sum + (one.stock === stock ? one.amount : 0), 0),
        ),
      ),
    }))
    .filter(({ total, amounts }) => {
      const most = amounts.map((own) => own.reduce((max, one) => Math.max(max, one), 0));
      return most.reduce((sum, one) => sum + one, 0) > total;
    });
  const partUsers = shared.movers.map((own, part) => ({
    part,
    movers: own,
    users: candidates.flatMap((_, k) =>
      problem.activities[world.activities[k]].parts.includes(part) ? [k] : [],
    ),
  }));

  const anchors = ({ to, toAnchor }: Link): Int32Array =>
    toAnchor === 'start' ? starts[to] : finishes[to];

  /** The least and the most that the anchor of `from` leaves for that of `to`, and back. */
  const follow = (domains: Domains, link: Link): number => {
    const { from, to, toAnchor, open, limits } = link;
    const own = domains.live[from];
    let bound = open ? Infinity : -Infinity;
    for (let i = 0; i < domains.count[from]; i += 1) {
      const limit = limits[own[i]];
      if (open ? limit < bound : limit > bound) bound = limit;
    }
    const moments = anchors(link);
    const forward = keep(world, domains, to, (c) =>
      open ? moments[c] >= bound : moments[c] <= bound,
    );
    if (forward < 0) return -1;
    const atStart = toAnchor === 'start';
    const most = atStart ? domains.maxStart[to] : domains.maxFinish[to];
    const least = atStart ? domains.minStart[to] : domains.minFinish[to];
    const back = keep(world, domains, from, (c) => (open ? limits[c] <= most : limits[c] >= least));
    return back < 0 ? -1 : forward | back;
  };

  const consume = (domains: Domains): number => {
    let any = 0;
    for (const { total, amounts } of stocks) {
      const least = amounts.map((own, k) => {
        let min = Infinity;
        for (let i = 0; i < domains.count[k]; i += 1) min = Math.min(min, own[domains.live[k][i]]);
        return min;
      });
      const spare = total - least.reduce((sum, one) => sum + one, 0);
      if (spare < 0) return -1;
      for (let k = 0; k < n; k += 1) {
        const done = keep(world, domains, k, (c) => amounts[k][c] - least[k] <= spare);
        if (done < 0) return -1;
        any |= done;
      }
    }
    return any;
  };

  /** Work in a space to which a part has yet to be moved comes after a move to there. */
  const fetch = (domains: Domains): number => {
    let any = 0;
    for (const { part, movers, users } of partUsers) {
      if (movers.length === 0) continue;
      const home = problem.parts[part].space;
      const earliest = (space: number, but: number): number => {
        let first = Infinity;
        for (const k of movers) {
          if (k === but) continue;
          for (let i = 0; i < domains.count[k]; i += 1) {
            const { way, finish } = candidates[k][domains.live[k][i]];
            if (way.work.movesTo === space && finish < first) first = finish;
          }
        }
        return first;
      };
      const known = new Map<number, number>();
      for (const k of users) {
        known.clear();
        const done = keep(world, domains, k, (c) => {
          const { way, start } = candidates[k][c];
          const { space } = way.work;
          if (way.frozen || space === null || space === home) return true;
          let first = known.get(space);
          if (first === undefined) known.set(space, (first = earliest(space, k)));
          return start >= first;
        });
        if (done < 0) return -1;
        any |= done;
      }
    }
    return any;
  };

  const crowd = crowding(world, shared);
  const isShallow = (domains: Domains): boolean => {
    let placed = 0;
    for (let k = 0; k < n; k += 1) if (domains.placed[k] >= 0) placed += 1;
    return placed <= SHALLOW;
  };

  return {
    place(domains, k) {
      const c = domains.placed[k];
      for (let other = 0; other < n; other += 1) {
        if (other === k) continue;
        const own = row(k, c, other);
        if (keep(world, domains, other, (j) => own[j] === 1) < 0) return false;
      }
      return true;
    },
    settle(domains, limits) {
      if (!resources.restrict(domains)) return false;
      for (let again = true; again;) {
        again = false;
        for (const link of links) {
          const done = follow(domains, link);
          if (done < 0) return false;
          if (done > 0) again = true;
        }
        for (const rule of [consume, fetch]) {
          const done = rule(domains);
          if (done < 0) return false;
          if (done > 0) again = true;
        }
        const fits = values.restrict(domains, limits, () => {
          again = true;
        });
        if (!fits) return false;
        if (again || !isShallow(domains)) continue;
        const done = crowd(domains);
        if (done < 0) return false;
        if (done > 0) again = true;
      }
      return true;
    },
    allows(domains, k, c) {
      return links.every((link) => {
        const { from, to, toAnchor, open, limits } = link;
        const atStart = toAnchor === 'start';
        if (from === k) {
          const most = atStart ? domains.maxStart[to] : domains.maxFinish[to];
          const least = atStart ? domains.minStart[to] : domains.minFinish[to];
          return open ? limits[c] <= most : limits[c] >= least;
        }
        if (to !== k) return true;
        const moment = anchors(link)[c];
        const own = domains.live[from];
        for (let i = 0; i < domains.count[from]; i += 1) {
          const limit = limits[own[i]];
          if (open ? moment >= limit : moment <= limit) return true;
        }
        return false;
      });
    },
  };
}
