/**
 * The first plan of a yard, and a replan after a disturbance, in a process that has planned other
 * yards before. Words: SETTINGS (JSON) KIND (delayed or ill). Prints one JSON line.
 */
import { runSolve } from '#host/run-solve.ts';
import { compile } from '#planning/compile/compile.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import { check } from '#scheduling/checker/check.ts';
import type { Plan } from '#scheduling/model/plan.ts';
import type { Problem } from '#scheduling/model/problem.ts';
import { create } from '#scheduling/solve.ts';
import { generateYard, type YardSettings } from '#seeds/generate/yard.ts';
import type { Row } from '../bench.ts';
import { cpuSince } from '../speed/counted.ts';
import { disturbed, nearMoves, onlyDisturbance, type Disturbance } from './disturb.ts';

/** Seconds for the plan that is published, for a replan, and for the fewest moves. */
const PUBLISHED = 5;
const REPLAN = 1;
const FEWEST = 10;
/** Other yards planned before anything is timed. */
const WARMING = 3;

interface First {
  readonly problem: Problem;
  readonly compileMs: number;
  /** Root and decode. */
  readonly planMs: number;
  /** Processor time of both, all threads of the process counted. */
  readonly cpuMs: number;
}

function firstPlan(settings: YardSettings): First {
  const yard = generateYard(settings);
  const workload = makeWorkload(yard);
  const from = process.cpuUsage();
  const began = performance.now();
  const { problem } = compile({ yard, workload });
  const compiled = performance.now();
  const search = create(problem, 1, null);
  while (search.step(1).plan === null);
  const planMs = performance.now() - compiled;
  return { problem, compileMs: compiled - began, planMs, cpuMs: cpuSince(from) };
}

interface Best {
  readonly plan: Plan | null;
  readonly firstMs: number | null;
}

/** The best plan after so many milliseconds, and each better one told. */
function planFor(
  problem: Problem,
  warm: Plan | null,
  milliseconds: number,
  onPlan: (plan: Plan) => void = () => undefined,
): Best {
  const began = performance.now();
  const search = create(problem, 1, warm);
  let plan: Plan | null = null;
  let firstMs: number | null = null;
  for (;;) {
    const state = search.step(1);
    const gone = performance.now() - began;
    if (state.plan !== null && state.plan !== plan) {
      firstMs ??= gone;
      // What comes after the time is up does not count.
      if (plan !== null && gone > milliseconds) return { plan, firstMs };
      onPlan(state.plan);
    }
    plan = state.plan;
    if (state.done || gone >= milliseconds) return { plan, firstMs };
  }
}

const [word, kind] = process.argv.slice(2);
const settings = JSON.parse(word) as YardSettings;
for (let k = 1; k <= WARMING; k += 1) {
  const other = firstPlan({ ...settings, seed: settings.seed + 100 * k });
  const { plan } = planFor(other.problem, null, 1000);
  if (plan !== null) planFor(disturbed(other.problem, plan, 'delayed'), plan, 1000);
}

const { problem, compileMs, planMs, cpuMs } = firstPlan(settings);
const thread = await runSolve(problem, { seed: 1, seconds: 2 });
const { plan: published } = planFor(problem, null, 1000 * PUBLISHED);
if (published === null) throw new Error('there is no plan to publish');
const after = disturbed(problem, published, kind as Disturbance);
const replan = planFor(after, published, Math.max(0, 1000 * REPLAN - compileMs));
let fewest = Infinity;
const counted = (plan: Plan): void => {
  fewest = Math.min(fewest, nearMoves(after, plan));
};
planFor(onlyDisturbance(after), published, 1000 * FEWEST, counted);
if (replan.plan !== null) counted(replan.plan);
const moves = replan.plan === null ? null : nearMoves(after, replan.plan);
const wrong = [
  ...check(problem, published),
  ...(replan.plan === null ? [] : check(after, replan.plan)),
];
const row: Row = {
  tasks: problem.activities.length,
  firstMs: compileMs + planMs,
  compileMs,
  planMs,
  cpuMs,
  threadMs: thread.firstPlanMs === null ? null : thread.firstPlanMs - planMs,
  replanMs: replan.firstMs === null ? null : compileMs + replan.firstMs,
  moves,
  fewest: Number.isFinite(fewest) ? fewest : null,
  wrong: wrong.length,
};
process.stdout.write(`${JSON.stringify(row)}\n`);
