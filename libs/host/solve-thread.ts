import { parentPort, workerData } from 'node:worker_threads';
import type { SearchState } from '#scheduling/model/plan.ts';
import { solve } from '#scheduling/solve.ts';
import type { Order, Report } from './messages.ts';

/** Milliseconds between two progress messages; the first plan is told at once. */
const PAUSE = 200;

const order = workerData as Order;
const report = (message: Report): void => parentPort?.postMessage(message);
let firstPlanMs: number | null = null;
let told = 0;

function progress(state: SearchState): void {
  const now = Date.now();
  const first = state.plan !== null && firstPlanMs === null;
  if (first) firstPlanMs = now - order.startedAt;
  if (!first && now - told < PAUSE) return;
  told = now;
  report({ kind: 'progress', state });
}

const result = solve(order.problem, {
  seed: order.seed,
  warmStart: order.warmStart,
  ...(order.iterations === null ? {} : { iterations: order.iterations }),
  shouldStop: () =>
    Atomics.load(order.stop, 0) !== 0 || (order.deadline !== null && Date.now() >= order.deadline),
  onProgress: progress,
});
report({ kind: 'result', result, firstPlanMs });
