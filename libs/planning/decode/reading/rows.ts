import type { Task, TaskLink, Workload } from '../../workload/workload.ts';
import type { Boat, Part, Refit } from '../../yard/boats.ts';
import type { Material } from '../../yard/materials.ts';
import type { Yard } from '../../yard/yard.ts';

/** A yard's rows by id. */
export interface Rows {
  readonly tasks: ReadonlyMap<string, Task>;
  readonly links: ReadonlyMap<string, TaskLink>;
  /** Links by the task that they lead to. */
  readonly into: ReadonlyMap<string, readonly TaskLink[]>;
  readonly materials: ReadonlyMap<string, Material>;
  readonly parts: ReadonlyMap<
    string,
    { readonly part: Part; readonly refit: Refit; readonly boat: Boat }
  >;
  readonly spaceName: (id: string) => string;
  readonly personName: (id: string) => string;
  readonly toolName: (id: string) => string;
  readonly slotListName: (id: string) => string;
}

export function rowsOf(yard: Yard, workload: Workload): Rows {
  const name = (list: readonly { id: string; name: string }[]): ((id: string) => string) => {
    const names = new Map(list.map((row) => [row.id, row.name]));
    return (id) => names.get(id) ?? id;
  };
  return {
    tasks: new Map(workload.tasks.map((task) => [task.id, task])),
    links: new Map(workload.links.map((link) => [link.id, link])),
    into: Map.groupBy(workload.links, ({ to }) => to),
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
    slotListName: name(yard.slotLists),
  };
}

/** `Bed on foam (Main bulkhead)`. */
export function shortName(rows: Rows, taskId: string): string {
  const task = rows.tasks.get(taskId);
  if (task === undefined) return taskId;
  return `${task.name} (${rows.parts.get(task.partId)?.part.name ?? task.partId})`;
}
