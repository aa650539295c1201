import type { Mode, Problem } from '../../model/problem.ts';
import type { World } from './world.ts';

/** What present activities have to do with each other beyond lags; by local index. */
export interface Shared {
  /** By part, who may move it. */
  readonly movers: readonly (readonly number[])[];
  /** By barrier, who may act on it. */
  readonly actors: readonly (readonly number[])[];
  /** By surface: present coverers, and who may move the film; null where the surface is absent. */
  readonly films: readonly (Film | null)[];
  /** By resource, whether all of it together may be too much. */
  readonly scarce: readonly boolean[];
  /**
   * For each activity, those that stand with it in a rule about more than two: only when all
   * of them are placed is it certain what placing it elsewhere would do.
   */
  readonly jointly: readonly ReadonlySet<number>[];
}

export interface Film {
  readonly owner: number;
  readonly coverers: readonly number[];
  readonly movers: readonly number[];
}

const may = (world: World, k: number, test: (work: Mode) => boolean): boolean =>
  world.domains[k].some(({ way }) => test(way.work));

function scarceResources(world: World): boolean[] {
  const { problem, domains, local } = world;
  return problem.resources.map(({ steps }, resource) => {
    const least = Math.min(...steps.map(({ capacity }) => capacity));
    const demanded = domains.reduce(
      (sum, domain) =>
        sum +
        domain.reduce((most, { way }) => {
          const own = way.work.demands.filter((demand) => demand.resource === resource);
          return Math.max(
            most,
            own.reduce((all, { amount }) => all + amount, 0),
          );
        }, 0),
      0,
    );
    const held = problem.holds.reduce(
      (sum, hold) =>
        sum + (hold.resource === resource && local[hold.activity] >= 0 ? hold.amount : 0),
      0,
    );
    return demanded + held > least;
  });
}

/** Everybody whose placing has a say in how much of a resource is free when. */
function users({ problem, local, domains }: World, resource: number): number[] {
  const demanding = domains.flatMap((domain, k) =>
    domain.some(({ way }) => way.work.demands.some((demand) => demand.resource === resource))
      ? [k]
      : [],
  );
  const holding = problem.holds.flatMap((hold) =>
    hold.resource === resource && local[hold.activity] >= 0
      ? [
          local[hold.activity],
          ...hold.ends.flatMap((end) =>
            end.kind === 'activity' && local[end.activity] >= 0 ? [local[end.activity]] : [],
          ),
        ]
      : [],
  );
  return [...demanding, ...holding];
}

/** Whether the dust of a space reaches another for certain, perhaps, or never. */
export type Reach = 'open' | 'conditional' | 'never';

/** A barrier that nobody acts on stays as it is. */
export function reachOf(
  problem: Problem,
  actors: readonly (readonly number[])[],
  from: number,
  to: number,
): Reach {
  let reach: Reach = 'never';
  for (const { space, barrier } of problem.spaces[from].dustReaches) {
    if (space !== to) continue;
    if (barrier === null) return 'open';
    if (actors[barrier].length > 0) reach = 'conditional';
    else if (!problem.barriers[barrier].closed) return 'open';
  }
  return reach;
}

export function sharedOf(world: World): Shared {
  const { problem, local } = world;
  const all = world.domains.map((_, k) => k);
  const movers = problem.parts.map((_, part) =>
    all.filter(
      (k) =>
        problem.activities[world.activities[k]].parts.includes(part) &&
        may(world, k, ({ movesTo }) => movesTo !== null),
    ),
  );
  const actors = problem.barriers.map((_, barrier) =>
    all.filter((k) => may(world, k, (work) => work.barrier?.barrier === barrier)),
  );
  const films = problem.surfaces.map(({ activity, coveredBy }): Film | null => {
    const owner = local[activity];
    if (owner < 0) return null;
    const coverers = coveredBy.map((a) => local[a]).filter((k) => k >= 0);
    const [part] = [...problem.activities[activity].parts, -1];
    const others = part < 0 ? [] : movers[part].filter((k) => k !== owner);
    return { owner, coverers, movers: others };
  });
  const scarce = scarceResources(world);
  const jointly = all.map(() => new Set<number>());
  const bind = (group: readonly number[]): void => {
    for (const a of group) for (const b of group) if (a !== b) jointly[a].add(b);
  };
  scarce.forEach((yes, resource) => {
    if (yes) bind(users(world, resource));
  });
  movers.forEach((own, part) => {
    if (own.length > 0)
      bind(all.filter((k) => problem.activities[world.activities[k]].parts.includes(part)));
  });
  const present = films.filter((film) => film !== null);
  const isJoint =
    present.some((film) => film.coverers.length > 0 || film.movers.length > 0) ||
    actors.some((own) => own.length > 0);
  if (isJoint)
    bind([
      ...all.filter((k) => may(world, k, ({ air }) => air !== 'clean')),
      ...present.flatMap(({ owner, coverers, movers: own }) => [owner, ...coverers, ...own]),
      ...actors.flat(),
    ]);
  return { movers, actors, films, scarce, jointly };
}
