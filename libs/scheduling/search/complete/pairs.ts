import { functionFor, opensAt } from '../../model/lag.ts';
import type { Interval } from '../../model/problem.ts';
import type { Candidate } from './candidates.ts';
import { reachOf, type Reach, type Shared } from './shared.ts';
import type { Link, World } from './world.ts';

/** Which candidates of `other` go with candidate `c` of `k`, one byte each. */
export type Row = (k: number, c: number, other: number) => Uint8Array;

const meet = (a: readonly Interval[], b: readonly Interval[]): boolean => {
  for (const one of a)
    for (const other of b) if (one.start < other.end && other.start < one.end) return true;
  return false;
};

const apart = (a: Candidate, b: Candidate): boolean =>
  a.start === a.finish || b.start === b.finish || a.finish <= b.start || b.finish <= a.start;

/** Bytes of rows that are kept; with more, all are forgotten and made again when asked for. */
const MOST_BYTES = 1 << 25;

/**
 * The rules about two placements at a time: lags, people, parts, barrier acts, and dust where no
 * third activity has a say. What it refuses is refused in every plan.
 */
export function pairs(world: World, shared: Shared): Row {
  const { problem, domains, links, activities } = world;
  const { films, movers, actors } = shared;
  const count = domains.length;
  const reach: Reach[][] = problem.spaces.map((_, from) =>
    problem.spaces.map((__, to) => reachOf(problem, actors, from, to)),
  );
  const between: Link[][][] = domains.map((_, a) =>
    domains.map((__, b) =>
      links.filter(({ from, to }) => (from === a && to === b) || (from === b && to === a)),
    ),
  );
  const partsOf = activities.map((a) => problem.activities[a].parts);
  const sharesPart = domains.map((_, a) =>
    domains.map((__, b) => partsOf[a].some((part) => partsOf[b].includes(part))),
  );

  /** When its surfaces are open for certain, whatever else is placed; the work itself included. */
  const openUntil = (k: number, c: Candidate): number => {
    let until = c.start;
    if (c.way.work.air === 'wet') until = c.finish;
    films.forEach((film, surface) => {
      if (film?.owner !== k || film.coverers.length > 0) return;
      const end = opensAt(
        problem,
        functionFor(problem.surfaces[surface].until, c.way.mode),
        c.finish,
      );
      // A move may take the film elsewhere, but not before the work is finished.
      until = Math.max(until, film.movers.length > 0 ? Math.min(end, c.finish) : end);
    });
    return until;
  };
  const until = domains.map((domain, k) => Float64Array.from(domain, (c) => openUntil(k, c)));

  const dusts = (dusty: Candidate, other: Candidate, k: number, o: number): boolean => {
    const { space, air } = dusty.way.work;
    const to = other.way.work.space;
    if (air !== 'dusty' || space === null || to === null || reach[space][to] !== 'open')
      return false;
    const end = until[k][o];
    if (end <= other.start) return false;
    const { settling } = problem.spaces[space];
    return dusty.segments.some((span) => span.start < end && other.start < span.end + settling);
  };

  /** The only one who moves the part, and where others then find it. */
  const misplaced = (mover: number, moving: Candidate, other: number, c: Candidate): boolean => {
    const { space } = c.way.work;
    if (space === null || c.way.frozen) return false;
    return partsOf[other].some((part) => {
      if (movers[part].length !== 1 || movers[part][0] !== mover) return false;
      const { movesTo } = moving.way.work;
      const moved = movesTo !== null && moving.finish <= c.start;
      return (moved ? movesTo : problem.parts[part].space) !== space;
    });
  };

  const sharesPeople = (a: Candidate, b: Candidate): boolean =>
    a.way.crew.some(
      ({ builder }) =>
        !problem.builders[builder].unlimited &&
        b.way.crew.some((other) => other.builder === builder),
    );

  /** Nothing that a placement does to another reaches beyond its start and this moment. */
  const touches = domains.map((domain, k) =>
    Float64Array.from(domain, ({ end, finish, way }, c) => {
      const { space, air } = way.work;
      const settled =
        air === 'dusty' && space !== null ? finish + problem.spaces[space].settling : 0;
      return Math.max(end, settled, until[k][c]);
    }),
  );

  /** All but lags, of two that touch each other. */
  const clash = (a: number, i: number, b: number, j: number): boolean => {
    const one = domains[a][i];
    const other = domains[b][j];
    const act = one.way.work.barrier;
    const alone =
      sharesPart[a][b] || (act !== null && act.barrier === other.way.work.barrier?.barrier);
    if (alone && !apart(one, other)) return true;
    if (dusts(one, other, b, j) || dusts(other, one, a, i)) return true;
    return meet(one.busy, other.busy) && sharesPeople(one, other);
  };

  const fill = (row: Uint8Array, k: number, c: number, other: number): void => {
    row.fill(1);
    for (const { from, toAnchor, open, limits } of between[k][other]) {
      const moments = toAnchor === 'start' ? world.starts : world.finishes;
      if (from === k) {
        const limit = limits[c];
        const own = moments[other];
        for (let j = 0; j < row.length; j += 1)
          if (open ? own[j] < limit : own[j] > limit) row[j] = 0;
      } else {
        const moment = moments[k][c];
        for (let j = 0; j < row.length; j += 1)
          if (open ? moment < limits[j] : moment > limits[j]) row[j] = 0;
      }
    }
    if (sharesPart[k][other])
      for (let j = 0; j < row.length; j += 1) {
        const one = domains[k][c];
        const two = domains[other][j];
        if (row[j] === 1 && (misplaced(k, one, other, two) || misplaced(other, two, k, one)))
          row[j] = 0;
      }
    const start = world.starts[k][c];
    const touched = touches[k][c];
    const starts = world.starts[other];
    const reached = touches[other];
    // Candidates are in the order of their starts.
    for (let j = 0; j < row.length && starts[j] < touched; j += 1)
      if (reached[j] > start && row[j] === 1 && clash(k, c, other, j)) row[j] = 0;
  };

  const empty = (): (Uint8Array | undefined)[][] => domains.map(() => []);
  let rows = empty();
  let bytes = 0;
  return (k, c, other) => {
    const known = rows[k][c * count + other];
    if (known !== undefined) return known;
    const size = domains[other].length;
    if (bytes + size > MOST_BYTES) {
      rows = empty();
      bytes = 0;
    }
    const row = new Uint8Array(size);
    fill(row, k, c, other);
    rows[k][c * count + other] = row;
    bytes += size;
    return row;
  };
}
