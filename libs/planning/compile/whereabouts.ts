import type { Task, TaskLink, Workload } from '../workload/workload.ts';

/** Spaces in which the film of a link's earlier task may be before the later task is done. */
export type Whereabouts = (link: TaskLink) => readonly string[];

/**
 * A part is where it is worked on: the film may be where it was laid, where the later task is,
 * and where any other task of its part is that may be done between the two. Order is read from
 * the part's own links; where they leave it open, the task may lie between. A link of one branch
 * holds only where the tasks of the other branches are not done.
 */
export function whereabouts({ tasks, links, choices }: Workload): Whereabouts {
  const byId = new Map(tasks.map((task) => [task.id, task]));
  const ofPart = Map.groupBy(tasks, ({ partId }) => partId);
  const next = new Map<string, string[]>();
  for (const { from, to, opens } of links) {
    if (opens === null || byId.get(from)?.partId !== byId.get(to)?.partId) continue;
    const known = next.get(from);
    if (known === undefined) next.set(from, [to]);
    else known.push(to);
  }
  const later = new Map<string, ReadonlySet<string>>();
  const after = (id: string): ReadonlySet<string> => {
    const known = later.get(id);
    if (known !== undefined) return known;
    const found = new Set<string>();
    const open = [id];
    for (let at = open.pop(); at !== undefined; at = open.pop()) {
      for (const to of next.get(at) ?? []) {
        if (found.has(to)) continue;
        found.add(to);
        open.push(to);
      }
    }
    later.set(id, found);
    return found;
  };
  const undone = new Map<string, ReadonlySet<string>>();
  for (const { branches } of choices) {
    for (const branch of branches) {
      const others = branches.flatMap((other) => (other === branch ? [] : other.tasks));
      for (const link of branch.links) undone.set(link, new Set(others));
    }
  }
  return ({ id: link, from, to }) => {
    const [laid, done] = [byId.get(from), byId.get(to)];
    if (laid === undefined || done === undefined) return [];
    const mayLieBetween = ({ id }: Task): boolean =>
      !after(id).has(from) && !after(to).has(id) && !(undone.get(link)?.has(id) ?? false);
    const between = (ofPart.get(laid.partId) ?? []).filter(mayLieBetween);
    return [...new Set([laid.space, done.space, ...between.map(({ space }) => space)])];
  };
}
