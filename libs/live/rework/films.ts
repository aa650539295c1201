import type { CureMaterial, Milestone } from '#cure/material/material.ts';
import { DomainError } from '#kernel/error.ts';
import type { Task } from '#planning/workload/workload.ts';
import type { Part } from '#planning/yard/boats.ts';
import { cureMaterial } from '#planning/yard/cure-material.ts';
import type { Moment, Step } from '#planning/yard/procedures.ts';
import type { Yard } from '#planning/yard/yard.ts';

/** Work that lays a film. */
export type Wet = Task & { readonly material: string };
export const isWet = (task: Task): task is Wet => task.material !== null;

/** Which of a part's measures a film follows. */
export type Zone = 'area' | 'joints' | 'edges';

export function zoneOf({ quantity }: Task): Zone {
  if (quantity?.kind === 'tabbing' || quantity?.kind === 'fillet') return 'joints';
  return quantity?.kind === 'glue-line' ? 'edges' : 'area';
}

/** The yard's sheet of a film. Throws yard.reference for a material that it has not. */
export function sheetOf(yard: Yard, { material }: Wet): CureMaterial {
  const found = yard.materials.find(({ id }) => id === material);
  if (found === undefined)
    throw new DomainError('yard.reference', `There is no material "${material}"`);
  return cureMaterial(found);
}

/** Throws record.missing. */
export function partOf(yard: Yard, id: string): Part {
  const found = yard.boats
    .flatMap(({ refits }) => refits.flatMap(({ parts }) => parts))
    .find((part) => part.id === id);
  if (found === undefined) throw new DomainError('record.missing', `There is no part "${id}"`);
  return found;
}

/** The step that a task was made from; undefined where the yard's procedure no longer has it. */
export function stepOf(yard: Yard, { partId, jobId, stepId }: Task): Step | undefined {
  const job = partOf(yard, partId).jobs.find(({ id }) => id === jobId);
  const procedure = yard.procedures.find(({ id }) => id === job?.procedure);
  return procedure?.steps.find(({ id }) => id === stepId);
}

/** From when on a film may be ground, by whichever its sheet has a number for. */
export function grindable({ milestones }: CureMaterial): Moment {
  const known = (['sandable', 'cured'] as const satisfies readonly Milestone[]).find(
    (milestone) => milestones[milestone] !== undefined,
  );
  // A night and a day: common practice, no source.
  return known === undefined
    ? { kind: 'after', minutes: 24 * 60 }
    : { kind: 'milestone', milestone: known };
}

/** Square metres that a film covers on its part; null where its measures are not known. */
export function extentOf({ quantity }: Task, { areaM2, edgeM, jointM }: Part): number | null {
  const strip = (metres: number, millimetres: number): number => (metres * millimetres) / 1000;
  const m2 =
    quantity?.kind === 'tabbing'
      ? strip(jointM, Math.max(...quantity.plies.map(({ widthMm }) => widthMm)))
      : quantity?.kind === 'fillet'
        ? strip(jointM, quantity.radiusMm * quantity.sides)
        : quantity?.kind === 'glue-line'
          ? strip(edgeM, quantity.widthMm)
          : areaM2;
  return m2 > 0 ? m2 : null;
}
