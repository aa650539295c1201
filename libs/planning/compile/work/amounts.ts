import { amountsOf } from '#cure/batch/amounts-of.ts';
import type { Amounts, Fabric } from '#cure/batch/amounts.ts';
import type { Work } from '#cure/batch/job.ts';
import type { CureMaterial } from '#cure/material/material.ts';
import { DomainError } from '#kernel/error.ts';
import type { Task } from '../../workload/workload.ts';
import type { Quantity } from '../../yard/procedures.ts';
import type { Yard } from '../../yard/yard.ts';

function fabricOf(yard: Yard, id: string): Fabric {
  const found = yard.fabrics.find((fabric) => fabric.id === id);
  if (found === undefined) throw new DomainError('yard.reference', `there is no fabric "${id}"`);
  return found;
}

function workOf(yard: Yard, quantity: Quantity): Work {
  if (quantity.kind === 'laminate') {
    const plies = quantity.plies.map(({ fabric, layers }) => ({
      fabric: fabricOf(yard, fabric),
      layers,
    }));
    return { ...quantity, plies };
  }
  if (quantity.kind === 'tabbing') {
    const plies = quantity.plies.map(({ fabric, widthMm }) => ({
      fabric: fabricOf(yard, fabric),
      widthMm,
    }));
    return { ...quantity, plies };
  }
  return quantity;
}

/**
 * What a task of the yard mixes; null where its step names no quantity. Throws what `amountsOf`
 * does, and yard.reference for a fabric or part that the yard has not.
 */
export function amountsOfTask(
  yard: Yard,
  { id, partId, quantity, portion }: Task,
  material: CureMaterial,
): Amounts | null {
  if (quantity === null) return null;
  const part = yard.boats
    .flatMap(({ refits }) => refits.flatMap(({ parts }) => parts))
    .find((one) => one.id === partId);
  if (part === undefined)
    throw new DomainError('yard.reference', `there is no part "${partId}" (${id})`);
  const sizes = {
    areaM2: part.areaM2 * portion,
    edgeM: part.edgeM * portion,
    jointM: part.jointM * portion,
  };
  return amountsOf({ work: workOf(yard, quantity), sizes, material });
}
