import type { Packing } from './packing.ts';
import type { Scheme } from './scheme.ts';

/**
 * A project in which an activity may start once its predecessors have finished, and nothing else
 * is asked but capacity.
 */
export interface Project extends Scheme {
  readonly packing: Packing;
  /** Sum of all durations: no generated plan is longer. */
  readonly span: number;
}
