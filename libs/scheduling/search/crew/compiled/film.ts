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

/** A space that dust reaches, through a barrier that somebody works, or -1. */
export interface Reach {
  readonly space: number;
  readonly barrier: number;
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

/** Where dust goes by space; a barrier that nobody works is open or closed for good. */
export function reachOf(problem: Problem): Reach[][] {
  const worked = new Set(
    problem.activities.flatMap(({ modes }) =>
      modes.flatMap(({ barrier }) => (barrier === null ? [] : [barrier.barrier])),
    ),
  );
  return problem.spaces.map(({ dustReaches }) =>
    dustReaches.flatMap(({ space, barrier }) => {
      if (barrier === null) return [{ space, barrier: -1 }];
      if (worked.has(barrier)) return [{ space, barrier }];
      return problem.barriers[barrier].closed ? [] : [{ space, barrier: -1 }];
    }),
  );
}
