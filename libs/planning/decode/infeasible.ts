import type { Infeasibility } from '#scheduling/model/plan.ts';
import type { Compiled } from '../compile/compile.ts';
import type { Workload } from '../workload/workload.ts';
import type { Yard } from '../yard/yard.ts';
import { moments } from './moments.ts';
import { rowsOf, shortName, type Rows } from './reading.ts';

/** Why there is no plan, naming the yard's tasks and links: a first line, then one for each row. */
export function whyNot(
  compiled: Compiled,
  found: Infeasibility,
  yard: Yard,
  workload: Workload,
): string[] {
  const { problem, map } = compiled;
  const rows = rowsOf(yard, workload);
  const head = found.irreducible
    ? 'No plan exists: these contradict each other, and without any one of them there would be a plan.'
    : 'No plan exists. Among these lies the contradiction (whether all of them are needed was not shown):';
  const tasks = found.activities.map((activity) => {
    const id = map.tasks[activity];
    return `task ${id}: ${shortName(rows, id)}`;
  });
  const links = found.lags.map((index) => {
    const lag = problem.lags[index];
    const [from, to] = [map.tasks[lag.from], map.tasks[lag.to]];
    const side = lag.bound === 'open' ? 'opens' : 'closes';
    return `link ${map.lags[index]}: ${lag.kind} ${side} for ${shortName(rows, to)} after ${shortName(rows, from)}`;
  });
  const end = `all of it by ${moments(map.origin, map.timeZone).words(problem.horizon)}, where the plan ends (horizonDays ${String(yard.horizonDays)})`;
  return [head, inWords(found.reason, compiled, rows), ...tasks, ...links, end];
}

/** The engine's reason, with the names of tasks in place of their ids and wall time in place of minutes. */
function inWords(reason: string, { map }: Compiled, rows: Rows): string {
  const ids = [...map.tasks].sort((a, b) => b.length - a.length);
  const pattern = new RegExp(
    `(?<![\\w.-])(${ids.map((id) => id.replace(/[.]/g, '\\.')).join('|')})(?![\\w-])`,
    'g',
  );
  const at = moments(map.origin, map.timeZone);
  return reason
    .replace(/ \(lags: [^)]*\)/, '') // each has its own line, with the names of its tasks
    .replace(/\bminute (\d+)\b/g, (_, minute: string) => at.words(Number(minute)))
    .replace(pattern, (id) => shortName(rows, id));
}
