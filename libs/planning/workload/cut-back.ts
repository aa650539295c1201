import type { Task } from './workload.ts';

/** Steps that a rework adds: films that are marked as done again are gone after the one, and are soft under the other. */
export const CUT_BACK = 'cut-back';
export const SCRAPE_OFF = 'scrape-off';

const isCut = ({ stepId, rework }: Task): boolean => stepId === CUT_BACK && rework !== null;

/**
 * Of works on one part those that still count: a film that is done again is no more once it has been
 * cut back. `cutAfter` is whether a film was there before the cut, and the cut is over.
 */
export function stillThere<T>(
  works: readonly T[],
  taskOf: (work: T) => Task,
  cutAfter: (film: T, cut: T) => boolean,
): T[] {
  const cuts = works.filter((work) => isCut(taskOf(work)));
  return works.filter((work) => {
    const { state, material } = taskOf(work);
    return state !== 'redo' || material === null || !cuts.some((cut) => cutAfter(work, cut));
  });
}
