import { fault, type Fault } from '#kernel/error.ts';
import type { Milestone } from '#cure/material/material.ts';
import type { Task, Workload } from '../../workload/workload.ts';
import { pathOf } from '../../yard/path.ts';
import type { Yard } from '../../yard/yard.ts';
import type { Films } from '../films/films.ts';
import type { Begun } from '../work/frozen.ts';
import { safeOf } from '../films/refusals.ts';
import { taskWords } from '../trace/rows.ts';

/** Milestones of its film that a task itself is planned by, links apart. */
function ownMilestones(task: Task, films: Films): Milestone[] {
  if (task.material === null) return [];
  const material = films.material(task.material);
  const found: Milestone[] = task.holds.flatMap(({ until }) =>
    until.flatMap((end) => (end.kind === 'milestone' ? [end.milestone] : [])),
  );
  if (task.sensitiveUntil === null) found.push('dust-safe');
  else if (task.sensitiveUntil.kind === 'milestone') found.push(task.sensitiveUntil.milestone);
  if (task.oneBatch) found.push('pot-life');
  if (material.limits.belowMinimum === 'spoils') found.push(safeOf(material));
  return found;
}

/**
 * Milestones that the work is planned by and that their material's sheet has no number for:
 * cure.missing, each once, naming the line to enter.
 */
export function missingFaults(
  yard: Yard,
  { tasks, links }: Pick<Workload, 'tasks' | 'links'>,
  begun: ReadonlyMap<string, Begun>,
  films: Films,
): Fault[] {
  const byId = new Map(tasks.map((task) => [task.id, task]));
  const wanted = tasks.flatMap((task) =>
    ownMilestones(task, films).map((milestone) => ({ task, milestone })),
  );
  for (const { from, to, opens, closes } of links) {
    const task = byId.get(from);
    if (task === undefined || !byId.has(to) || begun.has(to)) continue;
    for (const moment of [opens, closes])
      if (moment?.kind === 'milestone') wanted.push({ task, milestone: moment.milestone });
  }
  const said = new Set<string>();
  return wanted.flatMap(({ task, milestone }) => {
    const id = task.material;
    if (id === null || said.has(`${id}/${milestone}`)) return [];
    said.add(`${id}/${milestone}`);
    const { milestones, missing, name } = films.material(id);
    if (milestones[milestone] !== undefined) return [];
    const line = missing.find((one) => one.milestone === milestone)?.line ?? `"${milestone}"`;
    const m = yard.materials.findIndex((material) => material.id === id);
    return fault(
      'cure.missing',
      pathOf(['materials', m, 'milestones']),
      `${taskWords(yard, task)} is planned by "${milestone}", for which nothing is known of ${name}: its data sheet's line ${line}`,
      {
        value: milestone,
        cure: `Enter ${line} from the data sheet of ${name}, at two temperatures or more.`,
      },
    );
  });
}
