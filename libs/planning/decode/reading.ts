import { normalise, type IntervalSet } from '#calendar/intervals.ts';
import type { Placement, Plan } from '#scheduling/model/plan.ts';
import type { Problem } from '#scheduling/model/problem.ts';
import type { PlanMap } from '../compile/map.ts';
import { filmsOf, type Films } from '../compile/films.ts';
import { firstMinute, temperatures } from '../compile/climate.ts';
import { frameOf, type Frame } from '../compile/time.ts';
import type { Task, TaskLink, Workload } from '../workload/workload.ts';
import type { Part, Refit, Boat } from '../yard/boats.ts';
import type { Material } from '../yard/materials.ts';
import type { Yard } from '../yard/yard.ts';
import { moments, type Moments } from './moments.ts';

/** A yard's rows by id. */
export interface Rows {
  readonly tasks: ReadonlyMap<string, Task>;
  readonly links: ReadonlyMap<string, TaskLink>;
  readonly materials: ReadonlyMap<string, Material>;
  readonly parts: ReadonlyMap<
    string,
    { readonly part: Part; readonly refit: Refit; readonly boat: Boat }
  >;
  readonly spaceName: (id: string) => string;
  readonly personName: (id: string) => string;
  readonly toolName: (id: string) => string;
}

export function rowsOf(yard: Yard, workload: Workload): Rows {
  const name = (list: readonly { id: string; name: string }[]): ((id: string) => string) => {
    const names = new Map(list.map((row) => [row.id, row.name]));
    return (id) => names.get(id) ?? id;
  };
  return {
    tasks: new Map(workload.tasks.map((task) => [task.id, task])),
    links: new Map(workload.links.map((link) => [link.id, link])),
    materials: new Map(yard.materials.map((material) => [material.id, material])),
    parts: new Map(
      yard.boats.flatMap((boat) =>
        boat.refits.flatMap((refit) =>
          refit.parts.map((part) => [part.id, { part, refit, boat }] as const),
        ),
      ),
    ),
    spaceName: name(yard.spaces),
    personName: name(yard.people),
    toolName: name(yard.tools),
  };
}

/** A plan with everything needed to say it in the yard's words. */
export interface Reading {
  readonly problem: Problem;
  readonly map: PlanMap;
  readonly plan: Plan;
  readonly rows: Rows;
  readonly films: Films;
  /** Where a space follows the outdoors and the outdoor table does not say how these are. */
  readonly assumed: IntervalSet;
  readonly frame: Frame;
  readonly at: Moments;
  /** Placement by activity; undefined for what is not done. */
  readonly placed: readonly (Placement | undefined)[];
  /** Lags that belong to no branch or to one that was taken. */
  readonly holds: readonly boolean[];
}

export function readingOf(
  problem: Problem,
  map: PlanMap,
  plan: Plan,
  yard: Yard,
  workload: Workload,
): Reading {
  const frame = frameOf({ ...yard, timeZone: map.timeZone }, map.origin, undefined);
  const series = temperatures(yard, frame, firstMinute(workload, frame));
  const placed: (Placement | undefined)[] = problem.activities.map(() => undefined);
  for (const placement of plan.placements) placed[placement.activity] = placement;
  const holds = problem.lags.map(() => true);
  problem.choices.forEach((choice, c) => {
    choice.branches.forEach((branch, b) => {
      for (const lag of branch.lags) holds[lag] = plan.branches[c] === b;
    });
  });
  return {
    problem,
    map,
    plan,
    rows: rowsOf(yard, workload),
    films: filmsOf(yard, series, problem.horizon),
    assumed: normalise([...series.values()].flatMap(({ assumed }) => assumed)),
    frame,
    at: moments(map.origin, map.timeZone),
    placed,
    holds,
  };
}

/** When begun work really began and ended; otherwise what the plan says. Minutes. */
export function spanOf(
  reading: Reading,
  task: Task,
  placement: Placement,
): { start: number; finish: number } {
  if (task.startedAt === null) return { start: placement.start, finish: placement.finish };
  const { frame } = reading;
  return {
    start: frame.minuteOf(task.startedAt),
    finish: task.finishedAt === null ? placement.finish : frame.minuteOf(task.finishedAt),
  };
}

/** `Bed on foam (Main bulkhead)`. */
export function shortName(rows: Rows, taskId: string): string {
  const task = rows.tasks.get(taskId);
  if (task === undefined) return taskId;
  return `${task.name} (${rows.parts.get(task.partId)?.part.name ?? task.partId})`;
}
