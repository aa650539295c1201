import type { Task } from './workload.ts';

/** A part that is moved to where it is has been turned over. */
export const turnsOver = ({ movesTo, space }: Pick<Task, 'movesTo' | 'space'>): boolean =>
  movesTo !== null && movesTo === space;

/**
 * Of works on a part, in order of time, those on the face that is up in the end: a part that was
 * turned over shows its other face, and turned twice the first one again.
 */
export function thisFace<T>(works: readonly T[], turns: (work: T) => boolean): T[] {
  let up = 0;
  const faces = works.map((work) => {
    if (turns(work)) up = 1 - up;
    return up;
  });
  return works.filter((_, k) => faces[k] === up);
}
