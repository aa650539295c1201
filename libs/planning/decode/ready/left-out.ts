import { standingOf } from '../../compile/work/choices.ts';
import type { Workload } from '../../workload/workload.ts';
import type { PlanSheet } from '../sheet.ts';
import type { Ground } from './ground.ts';

export interface Left {
  readonly tasks: ReadonlySet<string>;
  readonly links: ReadonlySet<string>;
}

/** What is left out when every choice goes the way the plan says (its first branch without one). */
export function leftOut(workload: Workload, { structure }: Ground, sheet: PlanSheet | null): Left {
  const standing = standingOf(workload, structure.deciders);
  const tasks = new Set(standing.dropped);
  const links = new Set(standing.droppedLinks);
  const planned = new Map(sheet?.choices.map(({ id, branch }) => [id, branch]));
  for (const choice of standing.open) {
    const wanted = planned.get(choice.id) ?? choice.branches[0].id;
    const taken = choice.branches.find(({ id }) => id === wanted) ?? choice.branches[0];
    for (const branch of choice.branches) {
      if (branch === taken) continue;
      for (const task of branch.tasks) tasks.add(task);
      for (const link of branch.links) links.add(link);
    }
  }
  return { tasks, links };
}
