import type { Task, Workload } from '#planning/workload/workload.ts';
import type { Yard } from '#planning/yard/yard.ts';
import { defects, type SnagKind } from './defects.ts';
import { isWet, sheetOf } from './films.ts';

const overAt = ({ finishedAt, startedAt }: Task): number =>
  Date.parse(finishedAt ?? startedAt ?? '');

/** Why a defect of the kind cannot lie in what a task made; null where it can. */
export function cannotLie(yard: Yard, task: Task, kind: SnagKind): string | null {
  const { name, uses, epoxyOnly } = defects[kind];
  if (uses === null) return null;
  if (!isWet(task)) return `${name}: “${task.name}” lays no film that it could lie in`;
  const { base, use, name: material } = sheetOf(yard, task);
  if (!uses.includes(use))
    return `${name} lies in ${uses.join(', ')} films, and “${task.name}” lays ${material}, a ${use} one`;
  if (epoxyOnly && base !== 'epoxy')
    return `${name} is found on epoxy, and “${task.name}” lays ${material}, ${base}`;
  return null;
}

/** The done work of a part in which such a defect lies, as far as can be told: the last that could have it. */
export function suspectOf(
  yard: Yard,
  { tasks }: Workload,
  partId: string,
  kind: SnagKind,
): Task | null {
  const possible = tasks.filter(
    (task) =>
      task.partId === partId &&
      task.state === 'done' &&
      task.skill !== null &&
      task.movesTo === null &&
      cannotLie(yard, task, kind) === null,
  );
  return possible.sort((a, b) => overAt(a) - overAt(b)).at(-1) ?? null;
}
