import type { LagFunctions, Problem } from '../problem.ts';
import { spanOf } from './minutes.ts';
import type { Report } from './report.ts';

/** `to` lies at least `weight` minutes after `from`; ends are 2a (start) and 2a + 1 (finish). */
interface Arc {
  readonly from: number;
  readonly to: number;
  readonly weight: number;
}

/** The minutes of constant functions, one for each mode or one for all; null where one is a table. */
function constants(fns: LagFunctions): number[] | null {
  const minutes = fns.flatMap((fn) => (fn.kind === 'constant' ? [fn.minutes] : []));
  return minutes.length === fns.length ? minutes : null;
}

/**
 * Arcs that hold in every plan: activities and lags of no branch, constant lags only; of lags
 * that differ by mode what holds in each.
 */
function arcsOf(problem: Problem): Arc[] {
  const arcs: Arc[] = [];
  const optional = new Set(problem.choices.flatMap((c) => c.branches.flatMap((b) => b.activities)));
  const conditional = new Set(problem.choices.flatMap((c) => c.branches.flatMap((b) => b.lags)));
  problem.activities.forEach((activity, a) => {
    if (optional.has(a) || activity.modes.length === 0) return;
    const { shortest, longest } = spanOf(problem, activity);
    arcs.push({ from: 2 * a, to: 2 * a + 1, weight: shortest });
    if (longest < Infinity) arcs.push({ from: 2 * a + 1, to: 2 * a, weight: -longest });
  });
  problem.lags.forEach((lag, index) => {
    const minutes = constants(lag.fns);
    if (conditional.has(index) || minutes === null) return;
    if (optional.has(lag.from) || optional.has(lag.to)) return;
    const from = 2 * lag.from + (lag.fromAnchor === 'finish' ? 1 : 0);
    const to = 2 * lag.to + (lag.toAnchor === 'finish' ? 1 : 0);
    if (lag.bound === 'open') arcs.push({ from, to, weight: Math.min(...minutes) });
    else arcs.push({ from: to, to: from, weight: -Math.max(...minutes) });
  });
  return arcs;
}

/**
 * Ends on a cycle of positive length, or null: longest paths by rounds of relaxation
 * (Bellman 1958); a round beyond the number of ends proves a cycle. O(ends * arcs).
 */
function positiveCycle(arcs: readonly Arc[], ends: number): number[] | null {
  const longest = new Float64Array(ends);
  const parent = new Int32Array(ends).fill(-1);
  let raised = -1;
  for (let round = 0; round <= ends; round++) {
    raised = -1;
    for (const { from, to, weight } of arcs) {
      if (longest[from] + weight <= longest[to]) continue;
      longest[to] = longest[from] + weight;
      parent[to] = from;
      raised = to;
    }
    if (raised < 0) return null;
  }
  let end = raised;
  for (let back = 0; back < ends; back++) end = parent[end];
  const cycle = [end];
  for (let at = parent[end]; at !== end; at = parent[at]) cycle.unshift(at);
  return cycle;
}

/** One fault for each cycle, cycles without common activities. */
export function cycles(to: Report, problem: Problem): void {
  let arcs = arcsOf(problem);
  for (;;) {
    const cycle = positiveCycle(arcs, 2 * problem.activities.length);
    if (!cycle) return;
    const activities = [...new Set(cycle.map((end) => end >> 1))];
    const names = activities.map((a) => problem.activities[a].id);
    to.add(
      'yard.cycle',
      'lags',
      names.length === 1
        ? `${names[0]} has lags from itself to itself that contradict each other`
        : `${names.join(' -> ')} -> ${names[0]} wait for each other`,
      activities,
    );
    const gone = new Set(activities);
    arcs = arcs.filter((arc) => !gone.has(arc.from >> 1) && !gone.has(arc.to >> 1));
  }
}
