import type { Step } from './procedure-values.ts';
import type { YardLists } from './yard-lists.ts';

/** What the fields of one step are given. */
export interface OfStep {
  readonly step: Step;
  readonly put: (change: Partial<Step>) => void;
  /** What is wrong with the field at this path of the step. */
  readonly fault: (path: string) => string | undefined;
  readonly lists: YardLists;
}
