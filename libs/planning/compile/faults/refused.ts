import { normalise } from '#calendar/intervals.ts';
import type { CureMaterial } from '#cure/material/material.ts';
import { fault, type Fault } from '#kernel/error.ts';
import type { Activity, Problem } from '#scheduling/model/problem.ts';
import type { Task, Workload } from '../../workload/workload.ts';
import type { Yard } from '../../yard/yard.ts';
import { climateWords, degrees } from './climate-words.ts';
import type { Films } from '../films/films.ts';
import { releasedAt } from '../site/outside.ts';
import { REFUSALS, type Refusal } from '../films/refusals.ts';
import { jobPath, taskWords } from '../trace/rows.ts';

function dampWords({ name, limits }: CureMaterial): string {
  const { minimumDewMarginC: margin, maximumHumidity: humidity } = limits;
  const asked = [
    margin === null ? '' : `on a surface ${degrees(margin.value)} or more above the dew point`,
    humidity === null ? '' : `in air of ${String(humidity.value)} % humidity or less`,
  ].filter((words) => words !== '');
  return `${name} may only be laid ${asked.join(' and ')}`;
}

/** What a material asks for that the climate never gives. */
function asks(kind: Refusal, material: CureMaterial): string {
  const { name, limits } = material;
  const [low, high] = [degrees(limits.minimumC.value), degrees(limits.maximumC.value)];
  switch (kind) {
    case 'cold':
    case 'warm':
      return `${name} must be laid and set between ${low} and ${high}`;
    case 'damp':
      return dampWords(material);
    case 'preheat':
      return `${name} asks for ${String(limits.preheatHours?.value ?? 0)} h at ${low} or more before it is laid`;
    case 'hold':
      return `${name} asks for ${String(limits.holdHours?.value ?? 0)} h at ${low} or more after it is laid`;
  }
}

/** Whether no start of an activity from a minute on is allowed in any mode. */
const never = ({ modes }: Activity, from: number, horizon: number): boolean =>
  modes.every(({ forbidden }) =>
    normalise(forbidden.flatMap(({ anchor, spans }) => (anchor === 'start' ? spans : []))).some(
      ({ start, end }) => start <= from && end > horizon,
    ),
  );

function refusedFault(
  yard: Yard,
  task: Task,
  activity: Activity,
  { horizon }: Problem,
  films: Films,
): Fault[] {
  if (task.material === null || activity.fixed?.kind === 'frozen') return [];
  if (!never(activity, releasedAt(activity), horizon)) return [];
  const material = films.material(task.material);
  const said = new Set(activity.modes[0].forbidden.map(({ kind }) => kind));
  const reasons = new Set(
    REFUSALS.filter((kind) => said.has(kind)).map((kind) => asks(kind, material)),
  );
  return [
    fault(
      'yard.window',
      jobPath(yard, task.jobId),
      `${taskWords(yard, task)} can never start: ${[...reasons].join('; ')}, and it is in ${climateWords(yard, task.space, films)}`,
      { value: task.id },
    ),
  ];
}

/** Tasks, those of branches apart, whose material may not be laid at any minute of the plan. */
export function refusedFaults(
  yard: Yard,
  { tasks, choices }: Workload,
  problem: Problem,
  films: Films,
): Fault[] {
  const optional = new Set(
    choices.flatMap(({ branches }) => branches.flatMap((branch) => [...branch.tasks])),
  );
  const byId = new Map(tasks.map((task) => [task.id, task]));
  return problem.activities.flatMap((activity) => {
    const task = optional.has(activity.id) ? undefined : byId.get(activity.id);
    return task === undefined ? [] : refusedFault(yard, task, activity, problem, films);
  });
}
