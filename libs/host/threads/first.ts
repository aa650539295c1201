import { parentPort } from 'node:worker_threads';
import type { RootProof } from '#scheduling/bounds/root.ts';
import type { Plan } from '#scheduling/model/plan.ts';
import type { Standing } from '#scheduling/search/portfolio/board.ts';
import { reasonsOf, resultOf, type Reasons } from '#scheduling/solve.ts';
import { runPortfolio } from './lead.ts';
import type { Order, Report } from './messages.ts';
import { mustStop } from './watch.ts';

/** Milliseconds between two progress messages; the first plan is told at once. */
const PAUSE = 200;
/** Before the reasons of a plan are looked for, for the first time: then the first good plans are there. */
const EARLIEST = 100;
/** So many times what it took last goes by before the reasons of a better plan are looked for. */
const RARELY = 20;
/** Of all the time, what is kept at most for the reasons of the plan at its end. */
const RESERVE = 1 / 8;

/** What the first thread of a run does: leads it, and explains what came of it. */
export function leadRun(order: Order): void {
  const { problem, startedAt, deadline, signals } = order;
  const report = (message: Report): void => parentPort?.postMessage(message);
  let planned = false;
  let told = 0;
  /** The plan whose reasons are known, and these. */
  let known: { readonly of: Plan; readonly reasons: Reasons } | null = null;
  let drafted = startedAt;
  let took = 0;

  function tell(state: Standing, now: number): void {
    told = now;
    report({ kind: 'progress', state });
  }

  /** The deadline is for the reasons too, where they are not known yet. */
  function keepTime({ plan }: Standing): void {
    if (deadline === null) return;
    const reserve = Math.min(took, RESERVE * (deadline - startedAt));
    signals.deadline[0] = plan === null || known?.of === plan ? deadline : deadline - reserve;
  }

  function progress(state: Standing): void {
    const now = Date.now();
    const first = state.plan !== null && !planned;
    planned = state.plan !== null;
    if (first || now - told >= PAUSE) tell(state, now);
    keepTime(state);
  }

  /**
   * The reasons of a plan take time, and whoever stops the search, or its deadline, should not have to
   * wait for them: they are looked for now and then in the middle.
   */
  function draft(state: Standing): void {
    if (state.plan === null || state.done || known?.of === state.plan) return;
    const begun = Date.now();
    if (begun - drafted < Math.max(EARLIEST, RARELY * took)) return;
    const reasons = reasonsOf(problem, state.plan);
    known = { of: state.plan, reasons };
    drafted = Date.now();
    took = drafted - begun;
    keepTime(state);
    tell(state, drafted);
    report({ kind: 'draft', result: resultOf(problem, state, isOver, reasons) });
  }

  function prove({ analysis }: RootProof): void {
    report({ kind: 'earliest', finishes: analysis.finishes });
  }

  const isOver = (): boolean => mustStop(signals);

  function explain(standing: Standing): void {
    const reasons = known !== null && known.of === standing.plan ? known.reasons : undefined;
    report({ kind: 'result', result: resultOf(problem, standing, isOver, reasons) });
  }

  if (order.found !== null) explain(order.found);
  else void runPortfolio(order, progress, draft, prove).then(explain);
}
