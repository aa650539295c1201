import { fault, type Fault } from '#kernel/error.ts';
import { closesAt, opensAt } from '#scheduling/model/lag.ts';
import type { Activity, Lag, Problem } from '#scheduling/model/problem.ts';
import type { Task, TaskLink, Workload } from '../../workload/workload.ts';
import { pathOf } from '../../yard/path.ts';
import type { Moment } from '../../yard/procedures.ts';
import type { Yard } from '../../yard/yard.ts';
import { headCounts, minutesWith, type Site } from '../work/activities.ts';
import { climateWords } from './climate-words.ts';
import { releasedAt } from '../site/outside.ts';
import { jobPath, taskWords } from '../trace/rows.ts';

function linkPath(yard: Yard, link: TaskLink, from: Task): string {
  const own = link.id.startsWith(`${from.jobId}.`) ? link.id.slice(from.jobId.length + 1) : '';
  for (const [p, procedure] of yard.procedures.entries()) {
    const used = yard.boats.some((boat) =>
      boat.refits.some((refit) =>
        refit.parts.some((part) =>
          part.jobs.some((job) => job.id === from.jobId && job.procedure === procedure.id),
        ),
      ),
    );
    const k = used ? procedure.links.findIndex(({ id }) => id === own) : -1;
    if (k >= 0) return pathOf(['procedures', p, 'links', k]);
  }
  return jobPath(yard, from.jobId);
}

const momentWords = (moment: Moment | null): string =>
  moment === null
    ? 'open'
    : moment.kind === 'after'
      ? `past ${String(moment.minutes)} minutes`
      : `"${moment.milestone}"`;

const shortest = (task: Task, site: Site): number =>
  Math.min(
    ...headCounts(task, site).map((heads) => minutesWith(task, heads, site.crew, 'quickest')),
  );

/** Whether some start of the earlier task leaves the later one room between opening and closing. */
function leavesRoom(
  problem: Problem,
  opens: Lag,
  closes: Lag,
  from: Activity,
  spent: number,
  needs: number,
): boolean {
  for (let start = releasedAt(from); start + spent <= problem.horizon; start++) {
    const finish = start + spent;
    const open = opensAt(problem, opens.fns[0], opens.fromAnchor === 'finish' ? finish : start);
    const close = closesAt(problem, closes.fns[0], closes.fromAnchor === 'finish' ? finish : start);
    const gap = opens.toAnchor === closes.toAnchor ? 0 : needs;
    if (open <= problem.horizon && open + gap <= close) return true;
  }
  return false;
}

interface Case {
  readonly yard: Yard;
  readonly problem: Problem;
  readonly site: Site;
  readonly index: ReadonlyMap<string, number>;
  readonly tasks: ReadonlyMap<string, Task>;
  readonly lagsOf: ReadonlyMap<string, readonly Lag[]>;
}

function linkFault(
  link: TaskLink,
  { yard, problem, site, index, tasks, lagsOf }: Case,
): Fault | null {
  const [from, to] = [tasks.get(link.from), tasks.get(link.to)];
  const activity = problem.activities.at(index.get(link.from) ?? problem.activities.length);
  if (
    from === undefined ||
    to === undefined ||
    activity === undefined ||
    activity.fixed?.kind === 'frozen'
  )
    return null;
  const lags = lagsOf.get(link.id) ?? [];
  const opens = lags.find((lag) => lag.bound === 'open');
  const closes = lags.find((lag) => lag.bound === 'close');
  const [spent, needs] = [shortest(from, site), shortest(to, site)];
  const value = link.id;
  if (opens !== undefined) {
    const anchor = releasedAt(activity) + (opens.fromAnchor === 'finish' ? spent : 0);
    if (opensAt(problem, opens.fns[0], anchor) > problem.horizon && link.opens?.kind === 'after') {
      return fault(
        'yard.horizon',
        jobPath(yard, to.jobId),
        `${taskWords(yard, to)} cannot begin before the horizon, ${String(yard.horizonDays)} days from the plan's beginning: ${taskWords(yard, from)} is not done early enough`,
        { value: to.id },
      );
    }
    if (opensAt(problem, opens.fns[0], anchor) > problem.horizon) {
      return fault(
        'yard.window',
        linkPath(yard, link, from),
        `the window of ${link.id} never opens: ${taskWords(yard, from)} is not ${momentWords(link.opens)} before the horizon in ${climateWords(yard, from.space, site.films)}`,
        { value },
      );
    }
  }
  if (opens === undefined || closes === undefined) return null;
  if (leavesRoom(problem, opens, closes, activity, spent, needs)) return null;
  return fault(
    'yard.window',
    linkPath(yard, link, from),
    `the window of ${link.id} is empty: ${taskWords(yard, to)} takes at least ${String(needs)} min, and there is never so long between ${momentWords(link.opens)} and ${momentWords(link.closes)} of ${taskWords(yard, from)} in ${climateWords(yard, from.space, site.films)}`,
    { value },
  );
}

/** By task, the links from it and to it. */
function linksByTask(links: readonly TaskLink[]): ReadonlyMap<string, readonly string[]> {
  const found = new Map<string, string[]>();
  for (const { id, from, to } of links)
    for (const task of [from, to]) {
      const known = found.get(task);
      if (known === undefined) found.set(task, [id]);
      else known.push(id);
    }
  return found;
}

/**
 * Windows that cannot be met whatever the order of work. A window that holds in one branch
 * of a choice only closes that branch, and is a fault if it leaves the choice none.
 */
export function windowFaults(
  yard: Yard,
  workload: Workload,
  problem: Problem,
  site: Site,
): Fault[] {
  const lagsOf = new Map<string, Lag[]>();
  for (const lag of problem.lags) {
    const link = lag.source.slice('link:'.length);
    lagsOf.set(link, [...(lagsOf.get(link) ?? []), lag]);
  }
  const whole: Case = {
    yard,
    problem,
    site,
    index: new Map(problem.activities.map(({ id }, k) => [id, k])),
    tasks: new Map(workload.tasks.map((task) => [task.id, task])),
    lagsOf,
  };
  const branchOf = new Map<string, string>();
  const linksOf = linksByTask(workload.links);
  for (const choice of workload.choices) {
    for (const branch of choice.branches) {
      const name = `${choice.id}/${branch.id}`;
      for (const link of branch.links) branchOf.set(link, name);
      for (const task of branch.tasks)
        for (const link of linksOf.get(task) ?? []) branchOf.set(link, name);
    }
  }
  const sure: Fault[] = [];
  const closed = new Map<string, Fault>();
  for (const link of workload.links) {
    if (!lagsOf.has(link.id)) continue;
    const found = linkFault(link, whole);
    if (found === null) continue;
    const branch = branchOf.get(link.id);
    if (branch === undefined) sure.push(found);
    else closed.set(branch, found);
  }
  for (const choice of problem.choices) {
    const shut = choice.branches.map((branch) => closed.get(`${choice.id}/${branch.id}`));
    if (shut.every((found) => found !== undefined)) sure.push(...shut);
  }
  return sure;
}
