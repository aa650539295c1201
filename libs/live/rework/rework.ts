import type { WorkEdits } from '../edits/edits.ts';

/**
 * `snag`: somebody found a defect. `missed-window`: a window shut before the next was begun.
 * `abandoned`: wet work was left undone. `not-kicked`: a batch did not set.
 */
export type ReworkCause = 'snag' | 'missed-window' | 'abandoned' | 'not-kicked';

/** What is to be done again, and why, as a foreman would say it. */
export interface Reworked {
  readonly edits: WorkEdits;
  readonly words: string;
}

/** Ids of what a rework adds end with it. */
export const markOf = (reworkId: string): string => reworkId.slice(0, 8);
