import { functionFor, opensAt } from '../../model/lag.ts';
import type { Interval } from '../../model/problem.ts';
import type { Candidate } from './candidates.ts';
import type { Domains } from './domains.ts';
import type { Film, Shared } from './shared.ts';
import type { Supply } from './supply.ts';
import type { World } from './world.ts';

/** The rules about more than two placements at a time. */
export interface Joint {
  /**
   * Whether the placed may stand together; exact when all are placed, and before that
   * it refuses only what no further placement makes good.
   */
  fits(domains: Domains): boolean;
}

interface Exposure extends Interval {
  readonly space: number;
}

export function joint(world: World, shared: Shared, resources: Supply): Joint {
  const { problem } = world;
  const { films, movers, actors } = shared;
  const at = (domains: Domains, k: number): Candidate | null =>
    domains.placed[k] < 0 ? null : world.domains[k][domains.placed[k]];

  /** Where the part is for each work on it, once all who may move it are placed. */
  const located = (domains: Domains): boolean =>
    movers.every((own, part) => {
      if (own.length === 0 || own.some((k) => domains.placed[k] < 0)) return true;
      const moves = own
        .flatMap((k) => at(domains, k) ?? [])
        .filter(({ way }) => way.work.movesTo !== null)
        .sort((a, b) => a.finish - b.finish || a.start - b.start);
      return world.domains.every((_, k) => {
        const c = at(domains, k);
        if (c === null || c.way.frozen || c.way.work.space === null) return true;
        if (!problem.activities[c.way.activity].parts.includes(part)) return true;
        const last = moves.findLast((move) => move.finish <= c.start);
        return (last?.way.work.movesTo ?? problem.parts[part].space) === c.way.work.space;
      });
    });

  /** When a surface is safe at the earliest, given that coverers come no earlier than they may. */
  const safeAt = (domains: Domains, surface: number, film: Film, owner: Candidate): number => {
    if (film.coverers.length > 0) return Math.min(...film.coverers.map((k) => domains.minStart[k]));
    return opensAt(
      problem,
      functionFor(problem.surfaces[surface].until, owner.way.mode),
      owner.finish,
    );
  };

  const exposuresOf = (domains: Domains, surface: number, film: Film): Exposure[] => {
    const owner = at(domains, film.owner);
    if (owner === null) return [];
    const safe = safeAt(domains, surface, film, owner);
    const away = film.movers.map((k) => at(domains, k));
    const places: { space: number | null; start: number; end: number }[] = [];
    if (away.includes(null)) {
      places.push({ space: owner.way.work.space, start: owner.start, end: owner.finish });
    } else {
      const moves = away
        .flatMap((c) => c ?? [])
        .filter((c) => c.way.work.movesTo !== null && c.finish > owner.start)
        .sort((a, b) => a.finish - b.finish || a.start - b.start);
      [owner, ...moves].forEach((c, i) => {
        places.push({
          space: i === 0 ? owner.way.work.space : c.way.work.movesTo,
          start: Math.max(owner.start, c.start),
          end: i < moves.length ? moves[i].finish : Infinity,
        });
      });
    }
    return places.flatMap(({ space, start, end }) =>
      space === null || start >= Math.min(end, safe)
        ? []
        : [{ space, start, end: Math.min(end, safe) }],
    );
  };

  /** When dust passes: whenever the barrier is not closed; null where some act is not placed yet. */
  const closedSpans = (domains: Domains, barrier: number): Interval[] | null => {
    const acts = actors[barrier].map((k) => at(domains, k));
    if (acts.includes(null)) return null;
    const own = acts
      .flatMap((c) => c ?? [])
      .filter((c) => c.way.work.barrier?.barrier === barrier)
      .sort((a, b) => a.start - b.start);
    const states = [
      { closed: problem.barriers[barrier].closed, from: -Infinity },
      ...own.map((c) => ({ closed: c.way.work.barrier?.closes === true, from: c.finish })),
    ];
    return states.flatMap(({ closed, from }, i) => {
      const end = i < own.length ? own[i].start : Infinity;
      return closed && from < end ? [{ start: from, end }] : [];
    });
  };

  const passes = (start: number, end: number, closed: readonly Interval[]): boolean => {
    let from = start;
    for (const span of closed) if (span.start <= from && from < span.end) from = span.end;
    return from < end;
  };

  const clean = (domains: Domains): boolean => {
    const exposed: Exposure[] = [];
    world.domains.forEach((_, k) => {
      const c = at(domains, k);
      if (c?.way.work.air === 'wet' && c.way.work.space !== null && c.start < c.finish)
        exposed.push({ space: c.way.work.space, start: c.start, end: c.finish });
    });
    films.forEach((film, surface) => {
      if (film !== null) exposed.push(...exposuresOf(domains, surface, film));
    });
    if (exposed.length === 0) return true;
    const closed = problem.barriers.map((_, barrier) => closedSpans(domains, barrier));
    return world.domains.every((_, k) => {
      const c = at(domains, k);
      if (c?.way.work.air !== 'dusty' || c.way.work.space === null) return true;
      const { settling, dustReaches } = problem.spaces[c.way.work.space];
      return dustReaches.every(({ space, barrier }) => {
        const shut = barrier === null ? [] : closed[barrier];
        if (shut === null) return true;
        return exposed.every(
          (open) =>
            open.space !== space ||
            c.segments.every((span) => {
              const start = Math.max(span.start, open.start);
              const end = Math.min(span.end + settling, open.end);
              return start >= end || !passes(start, end, shut);
            }),
        );
      });
    });
  };

  const airy =
    actors.some((own) => own.length > 0) ||
    films.some((film) => film !== null && (film.coverers.length > 0 || film.movers.length > 0));

  const scarce = shared.scarce.includes(true);
  return {
    fits: (domains) =>
      located(domains) && (!scarce || resources.suffices(domains)) && (!airy || clean(domains)),
  };
}
