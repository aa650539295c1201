import { laminateMm } from '#cure/batch/thickness.ts';
import type { Task } from '#planning/workload/workload.ts';
import type { Part } from '#planning/yard/boats.ts';
import type { Yard } from '#planning/yard/yard.ts';
import { extentOf, zoneOf } from './films.ts';

/** Laminate is scarfed at least so many times its thickness (Wright, Epoxyworks). */
export const SCARF = 12;

/** How much of a part a rework is about. */
export interface Extent {
  /** Of the fault, m²; null: all that the film covers. */
  readonly faultM2: number | null;
  /** With the scarf all round, m²; null as above. */
  readonly laidM2: number | null;
  /** Metres of its edge that are scarfed; 0 without a scarf. */
  readonly scarfM: number;
}

/** Millimetres of glass that films are thick; other films need no scarf. */
export function glassMm(yard: Yard, films: readonly Task[]): number {
  const plyMm = (id: string): number => {
    const fabric = yard.fabrics.find((one) => one.id === id);
    return fabric === undefined ? 0 : laminateMm(fabric);
  };
  return films.reduce((sum, { quantity }) => {
    if (quantity?.kind === 'laminate')
      return sum + quantity.plies.reduce((mm, ply) => mm + plyMm(ply.fabric) * ply.layers, 0);
    if (quantity?.kind === 'tabbing')
      return sum + quantity.plies.reduce((mm, ply) => mm + plyMm(ply.fabric), 0);
    return sum;
  }, 0);
}

/**
 * A fault is taken for a square, and of a strip for a length of it. What is laid again is larger by
 * the scarf of the glass that is cut through, `SCARF` times its thickness on every side.
 */
export function extentFor(
  yard: Yard,
  part: Part,
  film: Task,
  areaM2: number | null,
  cut: readonly Task[],
): Extent {
  const whole = extentOf(film, part);
  if (areaM2 === null || (whole !== null && areaM2 >= whole))
    return { faultM2: null, laidM2: null, scarfM: 0 };
  const scarf = (glassMm(yard, cut) * SCARF) / 1000;
  if (zoneOf(film) === 'area') {
    const side = Math.sqrt(areaM2);
    const laidM2 = (side + 2 * scarf) ** 2;
    return { faultM2: areaM2, laidM2, scarfM: scarf > 0 ? 4 * side : 0 };
  }
  const metres = zoneOf(film) === 'joints' ? part.jointM : part.edgeM;
  const width = whole === null || metres === 0 ? 0 : whole / metres;
  const laidM2 = areaM2 + 2 * scarf * width;
  return { faultM2: areaM2, laidM2, scarfM: scarf > 0 ? 2 * width : 0 };
}

/** The share of a task's work that a rework of so much is, more than 0 and at most 1. */
export function portionOf({ laidM2 }: Extent, film: Task, part: Part): number {
  const whole = extentOf(film, part);
  return laidM2 === null || whole === null ? 1 : Math.min(1, laidM2 / whole);
}
