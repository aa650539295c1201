import type { Activity, Problem } from '../../../model/problem.ts';

/** Two activities, the first to be placed before the second. */
export type Precedence = readonly [number, number];

const isMove = ({ modes }: Activity): boolean => modes.some(({ movesTo }) => movesTo !== null);

/** The one space in which all modes of the activity are; null where they differ or one is nowhere. */
function onlySpace({ modes }: Activity): number | null {
  const { space } = modes[0];
  return modes.every((mode) => mode.space === space) ? space : null;
}

/**
 * What the places of parts alone say about the order of work on them: where a part comes to a
 * space only once (or is there at first and never comes back), work there follows the move that
 * brings it and precedes the moves that take it away.
 */
export function placesOf(problem: Problem): Precedence[] {
  const { activities } = problem;
  return problem.parts.flatMap(({ space: home }, part) => {
    const own = activities.flatMap(({ parts }, a) => (parts.includes(part) ? [a] : []));
    const moves = own.filter((a) => isMove(activities[a]));
    return own.flatMap((a): Precedence[] => {
      const space = onlySpace(activities[a]);
      if (space === null || activities[a].fixed?.kind === 'frozen') return [];
      const bringing = moves.filter(
        (m) => m !== a && activities[m].modes.some(({ movesTo }) => movesTo === space),
      );
      if (bringing.length + Number(space === home) !== 1) return [];
      const leaving = moves.filter(
        (m) =>
          m !== a &&
          !bringing.includes(m) &&
          (bringing.length === 0 || onlySpace(activities[m]) === space),
      );
      return [
        ...bringing.map((m): Precedence => [m, a]),
        ...leaving.filter((m) => !rivals(problem, a, m)).map((m): Precedence => [a, m]),
      ];
    });
  });
}

/** Whether the two are in different branches of one choice, so that never both are done. */
function rivals(problem: Problem, a: number, b: number): boolean {
  return problem.choices.some(({ branches }) => {
    const of = (activity: number): number =>
      branches.findIndex(({ activities }) => activities.includes(activity));
    return of(a) >= 0 && of(b) >= 0 && of(a) !== of(b);
  });
}
