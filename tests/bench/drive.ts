import type { Plan, SolveStatus } from '#scheduling/model/plan.ts';
import type { Problem } from '#scheduling/model/problem.ts';
import { create } from '#scheduling/solve.ts';

/** Between looks at the clock the search should work about so long. */
const LOOK_MS = 4;
const LARGEST_BATCH = 4096;

export interface Driven {
  readonly status: SolveStatus;
  readonly plan: Plan | null;
  /** By rank. */
  readonly bounds: readonly number[];
  /** From `began` to the answer, to the first and to the best plan. */
  readonly seconds: number;
  readonly firstSeconds: number | null;
  readonly bestSeconds: number | null;
  readonly iterations: number;
}

/**
 * One solve on this thread for so many seconds from `began` (on the clock of `performance.now()`).
 * `onPlan` is told of each better plan with the seconds gone.
 */
export function drive(
  problem: Problem,
  seconds: number,
  began: number,
  onPlan?: (plan: Plan, after: number) => void,
): Driven {
  const elapsed = (): number => (performance.now() - began) / 1000;
  const search = create(problem, 1, null);
  let plan: Plan | null = null;
  let firstSeconds: number | null = null;
  let bestSeconds: number | null = null;
  let batch = 1;
  for (;;) {
    const before = elapsed();
    const state = search.step(batch);
    const after = elapsed();
    if (state.plan !== null && state.plan !== plan) {
      firstSeconds ??= after;
      bestSeconds = after;
      onPlan?.(state.plan, after);
    }
    plan = state.plan;
    if (state.done || after >= seconds) {
      const { status, iterations } = state;
      const bounds = state.bounds.map(({ bound }) => bound);
      return { status, plan, bounds, seconds: after, firstSeconds, bestSeconds, iterations };
    }
    // The first plan is noticed at once.
    const took = 1000 * (after - before);
    if (plan === null || took > LOOK_MS) batch = Math.max(1, batch >> 1);
    else if (took < LOOK_MS / 2) batch = Math.min(LARGEST_BATCH, batch * 2);
  }
}
