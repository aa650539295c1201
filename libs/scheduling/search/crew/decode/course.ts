import type { Compiled } from '../compiled/compiled.ts';
import type { Raised } from './choose.ts';
import { emptyGenome, type Genome } from './genome.ts';
import type { State } from '../state/state.ts';

/** What was placed, in order, and how: enough to place it again without looking. */
export interface Course {
  height: number;
  /** Which of the placing orders. */
  order: number;
  readonly branch: Int16Array;
  readonly stack: Int32Array;
  readonly depth: Int32Array;
  readonly start: Int32Array;
  readonly finish: Int32Array;
  readonly mode: Int16Array;
  readonly crew: Int16Array;
  readonly slot: Int16Array;
  readonly raised: Raised;
  /** By activity, when it could start (from, to) and finish (from, to) as far as its lags said. */
  readonly window: Float64Array;
  /** The genome that it was built from. */
  readonly wish: Genome;
}

export function emptyCourse(compiled: Compiled): Course {
  const { activities, branches } = compiled;
  const n = activities.length;
  return {
    height: 0,
    order: 0,
    branch: new Int16Array(branches.length),
    stack: new Int32Array(n),
    depth: new Int32Array(n),
    start: new Int32Array(n),
    finish: new Int32Array(n),
    mode: new Int16Array(n),
    crew: new Int16Array(n),
    slot: new Int16Array(n),
    raised: { start: new Float64Array(n), finish: new Float64Array(n) },
    window: new Float64Array(4 * n),
    wish: emptyGenome(compiled),
  };
}

export function copyCourse(state: State, raised: Raised, order: number, to: Course): void {
  to.order = order;
  to.branch.set(state.branch);
  to.height = state.height;
  to.stack.set(state.stack);
  to.depth.set(state.depth);
  to.start.set(state.start);
  to.finish.set(state.finish);
  to.mode.set(state.mode);
  to.crew.set(state.crew);
  to.slot.set(state.slot);
  to.raised.start.set(raised.start);
  to.raised.finish.set(raised.finish);
}

/** How many of the first placed the state has in common with the course, at most `most`. */
export function sharedWith(course: Course, state: State, most: number): number {
  const end = Math.min(most, course.height, state.height);
  for (let i = 0; i < end; i += 1) {
    const a = course.stack[i];
    if (
      state.stack[i] !== a ||
      state.start[a] !== course.start[a] ||
      state.finish[a] !== course.finish[a] ||
      state.crew[a] !== course.crew[a] ||
      state.mode[a] !== course.mode[a] ||
      state.slot[a] !== course.slot[a]
    )
      return i;
  }
  return end;
}
