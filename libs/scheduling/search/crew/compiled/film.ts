import type { LagFunctions, Problem } from '../../../model/problem.ts';

/** A surface that another activity covers or that may be carried elsewhere: it has to be looked at as a whole. */
export interface Film {
  readonly surface: number;
  readonly activity: number;
  readonly until: LagFunctions;
  readonly coveredBy: readonly number[];
  /** The part that carries it, -1 where none does. */
  readonly part: number;
}

/** A space that dust reaches, through a gate or, -1, through none that anybody works. */
export interface Reach {
  readonly space: number;
  readonly gate: number;
}

/** The way of dust into a space through a barrier that somebody works. */
export interface Gate {
  readonly into: number;
  readonly barrier: number;
}

/** Where dust goes. */
export interface Drift {
  /** By space, where its dust goes. */
  readonly reach: readonly (readonly Reach[])[];
  readonly gates: readonly Gate[];
  /** Indices of gates by the space they lead into, and by barrier. */
  readonly gatesInto: readonly (readonly number[])[];
  readonly gatesOf: readonly (readonly number[])[];
}

export interface Films {
  readonly films: readonly Film[];
  /** By activity, the surfaces that end by themselves where they are. */
  readonly plain: readonly (readonly LagFunctions[])[];
}

/** Parts that some activity moves. */
const movedParts = (problem: Problem): Set<number> =>
  new Set(
    problem.activities.flatMap(({ parts, modes }) =>
      modes.some((mode) => mode.movesTo !== null) ? parts : [],
    ),
  );

export function filmsOf(problem: Problem): Films {
  const moved = movedParts(problem);
  const films: Film[] = [];
  const plain: LagFunctions[][] = problem.activities.map(() => []);
  problem.surfaces.forEach(({ activity, until, coveredBy }, surface) => {
    const { parts } = problem.activities[activity];
    const part = parts.length > 0 && moved.has(parts[0]) ? parts[0] : -1;
    if (part >= 0 || coveredBy.length > 0)
      films.push({ surface, activity, until, coveredBy, part });
    else plain[activity].push(until);
  });
  return { films, plain };
}

/** Where dust goes; a barrier that nobody works is open or closed for good. */
export function driftOf(problem: Problem): Drift {
  const worked = new Set(
    problem.activities.flatMap(({ modes }) =>
      modes.flatMap(({ barrier }) => (barrier === null ? [] : [barrier.barrier])),
    ),
  );
  const gates: Gate[] = [];
  const reach = problem.spaces.map(({ dustReaches }) =>
    dustReaches.flatMap(({ space, barrier }): Reach[] => {
      if (barrier === null) return [{ space, gate: -1 }];
      if (worked.has(barrier)) return [{ space, gate: gates.push({ into: space, barrier }) - 1 }];
      return problem.barriers[barrier].closed ? [] : [{ space, gate: -1 }];
    }),
  );
  const by = (count: number, of: (gate: Gate) => number): number[][] => {
    const lists = Array.from({ length: count }, (): number[] => []);
    gates.forEach((gate, g) => lists[of(gate)].push(g));
    return lists;
  };
  return {
    reach,
    gates,
    gatesInto: by(problem.spaces.length, ({ into }) => into),
    gatesOf: by(problem.barriers.length, ({ barrier }) => barrier),
  };
}
