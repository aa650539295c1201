/** A further thread of a run: keeps some of the searchers, and does their parts round by round. */
import { parentPort, workerData } from 'node:worker_threads';
import type { Plan } from '#scheduling/model/plan.ts';
import { deskOf } from '#scheduling/search/portfolio/desk.ts';
import { rosterOf } from '#scheduling/search/portfolio/roster.ts';
import { clauseLimits, memoryWatch } from './memory.ts';
import type { Finding, LaneOrder, RoundOrder } from './messages.ts';
import { workplaceOf } from './work.ts';

const { problem, seed, warmStart, signals, memoryMB, allMB } = workerData as LaneOrder;
const seats = rosterOf(problem);
const desk = deskOf(problem, seed, warmStart, seats, clauseLimits(allMB, seats.length));
const workplace = workplaceOf(desk, signals, memoryWatch(memoryMB));
let plan: Plan | null = null;
let leading: readonly Plan[] = [];
const known = new WeakSet<Plan>();

/** A plan crosses to the other thread once. */
function isNew(one: Plan): boolean {
  if (known.has(one)) return false;
  known.add(one);
  return true;
}

function unsent(finding: Finding): Finding {
  const own = finding.state.plan;
  return {
    ...finding,
    leading: finding.leading.filter(isNew),
    state: { ...finding.state, plan: own !== null && isNew(own) ? own : null },
  };
}

parentPort?.on('message', (order: RoundOrder) => {
  plan = order.plan ?? plan;
  leading = order.leading ?? leading;
  for (const one of [...leading, ...(plan === null ? [] : [plan])]) known.add(one);
  const exchange = { plan, leading, bounds: order.bounds };
  const findings = workplace.work(order.parts, exchange, () => undefined);
  parentPort?.postMessage(findings.map(unsent));
});
