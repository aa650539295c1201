import { normalise, type IntervalSet } from '#calendar/intervals.ts';
import type { Placement, Plan } from '#scheduling/model/plan.ts';
import type { Problem } from '#scheduling/model/problem.ts';
import type { PlanMap } from '../../compile/trace/map.ts';
import { filmsOf, type Films } from '../../compile/films/films.ts';
import { frameOf, type Frame } from '../../compile/frame/time.ts';
import { whereabouts, type Whereabouts } from '../../compile/films/whereabouts.ts';
import type { Task, Workload } from '../../workload/workload.ts';
import type { Yard } from '../../yard/yard.ts';
import { moments, type Moments } from './moments.ts';
import { rowsOf, type Rows } from './rows.ts';

/** What is needed to say plans of a problem in the yard's words. */
export interface Ground {
  readonly problem: Problem;
  readonly map: PlanMap;
  readonly yard: Yard;
  readonly workload: Workload;
  readonly rows: Rows;
  readonly films: Films;
  readonly whereabouts: Whereabouts;
  /** Where a space follows the outdoors and the outdoor table does not say how these are. */
  readonly assumed: IntervalSet;
  readonly frame: Frame;
  readonly at: Moments;
}

/** A plan with everything needed to say it in the yard's words. */
export interface Reading extends Ground {
  readonly plan: Plan;
  /** Placement by activity; undefined for what is not done. */
  readonly placed: readonly (Placement | undefined)[];
  /** Lags that belong to no branch or to one that was taken. */
  readonly holds: readonly boolean[];
}

export function groundOf(problem: Problem, map: PlanMap, yard: Yard, workload: Workload): Ground {
  const frame = frameOf({ ...yard, timeZone: map.timeZone }, map.origin, undefined);
  const films = filmsOf(yard, workload, frame);
  const gone = new Set(map.dropped);
  const remaining = workload.tasks.filter(({ id }) => !gone.has(id));
  return {
    problem,
    map,
    yard,
    workload,
    rows: rowsOf(yard, workload),
    films,
    whereabouts: whereabouts({ ...workload, tasks: remaining }, films),
    assumed: normalise(yard.spaces.flatMap(({ id }) => [...films.climate(id).assumed])),
    frame,
    at: moments(map.origin, map.timeZone),
  };
}

export function readingOf(ground: Ground, plan: Plan): Reading {
  const { problem } = ground;
  const placed: (Placement | undefined)[] = problem.activities.map(() => undefined);
  for (const placement of plan.placements) placed[placement.activity] = placement;
  const holds = problem.lags.map(() => true);
  problem.choices.forEach((choice, c) => {
    choice.branches.forEach((branch, b) => {
      for (const lag of branch.lags) holds[lag] = plan.branches[c] === b;
    });
  });
  return { ...ground, plan, placed, holds };
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
