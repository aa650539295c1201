import { massFactor } from '#cure/batch/pot-life.ts';
import type { Milestone } from '#cure/material/material.ts';
import type { Lag } from '#scheduling/model/problem.ts';
import type { Task } from '../../workload/workload.ts';
import type { Yard } from '../../yard/yard.ts';
import { amountsOfTask } from './amounts.ts';
import type { Films } from '../films/films.ts';
import type { LagSite } from './lags.ts';

/** One cup of all that a task mixes: how it stretches the sheet's pot life, and what else ends it. */
export interface WholeCup {
  readonly material: string;
  readonly times: number;
  /** Pot life; and the film's open time, which a small cup may outlast. */
  readonly ends: readonly Milestone[];
}

export function wholeCup(yard: Yard, task: Task, films: Films): WholeCup | null {
  if (!task.oneBatch || task.material === null) return null;
  const material = films.material(task.material);
  const amounts = amountsOfTask(yard, task, material);
  // Nothing is weighed for it: the sheet's own cup.
  const times = amounts === null ? 1 : massFactor(material, amounts.mixGrams, amounts.filmMm);
  const outlasts = times > 1 && material.milestones['open-time'] !== undefined;
  return {
    material: task.material,
    times,
    ends: outlasts ? ['pot-life', 'open-time'] : ['pot-life'],
  };
}

/** How it stretches the sheet's times to one of its ends. */
export const timesOf = ({ times }: WholeCup, milestone: Milestone): number =>
  milestone === 'pot-life' ? times : 1;

/** What is mixed at once is spread before it goes off: from the start of a task to its own finish. */
export function batchLags(yard: Yard, tasks: readonly Task[], site: LagSite): Lag[] {
  return tasks.flatMap((task, activity): Lag[] => {
    const cup = site.begun(task.id) === null ? wholeCup(yard, task, site.films) : null;
    if (cup === null) return [];
    return cup.ends.map((milestone) => ({
      id: `${task.id}#${milestone}`,
      from: activity,
      fromAnchor: 'start',
      to: activity,
      toAnchor: 'finish',
      bound: 'close',
      fns: [
        {
          kind: 'table',
          table: site.films.table(
            cup.material,
            milestone,
            'close',
            [task.space],
            timesOf(cup, milestone),
          ),
        },
      ],
      kind: milestone,
      source: `batch:${task.id}`,
    }));
  });
}
