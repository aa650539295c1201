import { functionFor, opensAt } from '../../model/lag.ts';
import type { Interval } from '../../model/problem.ts';
import type { Candidate } from './candidates.ts';
import { keep, type Domains } from './domains.ts';
import type { Shared } from './shared.ts';
import type { World } from './world.ts';

/** Renewable resources, demanded and held. */
export interface Supply {
  /** Whether what the placed take for certain is there. */
  suffices(domains: Domains): boolean;
  /** Keeps the candidates that the placed leave enough for; false where an activity has none. */
  restrict(domains: Domains): boolean;
}

interface Use extends Interval {
  readonly resource: number;
  readonly amount: number;
}

interface Step {
  readonly from: number;
  readonly free: number;
}

export function supply(world: World, { scarce }: Shared): Supply {
  const { problem, local } = world;
  const holdsOf = world.activities.map((a) =>
    problem.holds.filter((hold) => hold.activity === a && scarce[hold.resource]),
  );

  /** Demands, and holds until the moments that the candidate itself decides. */
  const certain = (k: number, c: Candidate): Use[] => {
    const uses: Use[] = [];
    const { way, start, finish, end } = c;
    for (const { resource, amount, keptWhilePaused } of way.work.demands) {
      if (!scarce[resource]) continue;
      for (const span of keptWhilePaused ? [{ start, end }] : c.busy)
        uses.push({ resource, amount, start: span.start, end: span.end });
    }
    for (const { resource, amount, ends } of holdsOf[k]) {
      let until = finish;
      for (const one of ends)
        if (one.kind === 'lag')
          until = Math.max(until, opensAt(problem, functionFor(one.fns, way.mode), finish));
      uses.push({ resource, amount, start, end: until });
    }
    return uses.filter((use) => use.start < use.end && use.end > 0);
  };
  const known = world.domains.map((): (readonly Use[] | undefined)[] => []);
  const usesOf = (k: number, c: number): readonly Use[] =>
    (known[k][c] ??= certain(k, world.domains[k][c]));

  /** What holds take beyond what the holder alone decides: until others, at the earliest. */
  const extensions = (domains: Domains, k: number, c: Candidate): Use[] =>
    holdsOf[k].flatMap(({ resource, amount, ends }) => {
      let sure = c.finish;
      let until = c.finish;
      for (const one of ends) {
        if (one.kind === 'lag')
          sure = Math.max(sure, opensAt(problem, functionFor(one.fns, c.way.mode), c.finish));
        else if (local[one.activity] >= 0) {
          const moments = one.anchor === 'start' ? domains.minStart : domains.minFinish;
          until = Math.max(until, moments[local[one.activity]]);
        }
      }
      return until > sure && until > 0 ? [{ resource, amount, start: sure, end: until }] : [];
    });

  /** By resource, what the placed take. */
  const taken = (domains: Domains): Use[][] => {
    const all: Use[][] = problem.resources.map(() => []);
    for (let k = 0; k < world.domains.length; k += 1) {
      const c = domains.placed[k];
      if (c < 0) continue;
      for (const use of usesOf(k, c)) all[use.resource].push(use);
      if (holdsOf[k].length > 0)
        for (const use of extensions(domains, k, world.domains[k][c])) all[use.resource].push(use);
    }
    return all;
  };

  const capacityAt = (resource: number, minute: number): number =>
    problem.resources[resource].steps.findLast(({ from }) => from <= minute)?.capacity ?? 0;

  const freeAt = (resource: number, uses: readonly Use[], minute: number): number => {
    let free = capacityAt(resource, minute);
    for (const { start, end, amount } of uses) if (start <= minute && minute < end) free -= amount;
    return free;
  };

  /** Minutes from which on there may be less than before. */
  const drops = (resource: number, uses: readonly Use[]): number[] => [
    ...uses.map(({ start }) => Math.max(0, start)),
    ...problem.resources[resource].steps.map(({ from }) => from),
  ];

  /** What is left of a resource over time. */
  const profile = (resource: number, uses: readonly Use[]): Step[] =>
    [...new Set([...drops(resource, uses), ...uses.map(({ end }) => end)])]
      .sort((a, b) => a - b)
      .map((from) => ({ from, free: freeAt(resource, uses, from) }));

  const users = world.domains.map((domain, k) => domain.some((_, c) => usesOf(k, c).length > 0));

  return {
    suffices: (domains) =>
      taken(domains).every(
        (uses, resource) =>
          uses.length < 1 ||
          drops(resource, uses).every((minute) => freeAt(resource, uses, minute) >= 0),
      ),
    restrict(domains) {
      if (!users.includes(true)) return true;
      const profiles = taken(domains).map((uses, resource) =>
        scarce[resource] ? profile(resource, uses) : [],
      );
      const short = new Map<string, Interval[]>();
      const shortOf = (resource: number, amount: number): Interval[] => {
        const key = `${String(resource)}/${String(amount)}`;
        let spans = short.get(key);
        if (spans === undefined) {
          const steps = profiles[resource];
          spans = steps.flatMap(({ from, free }, i) =>
            free < amount ? [{ start: from, end: steps.at(i + 1)?.from ?? Infinity }] : [],
          );
          short.set(key, spans);
        }
        return spans;
      };
      for (let k = 0; k < users.length; k += 1) {
        if (!users[k] || domains.placed[k] >= 0) continue;
        const done = keep(world, domains, k, (c) =>
          usesOf(k, c).every((use) =>
            shortOf(use.resource, use.amount).every(
              ({ start, end }) => end <= use.start || use.end <= start,
            ),
          ),
        );
        if (done < 0) return false;
      }
      return true;
    },
  };
}
