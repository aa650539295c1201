import type { PlanSheet, SheetBoat, When } from '#planning/decode/sheet.ts';
import { daysTo, minutesTo } from './minutes.ts';

/** One refit in both plans. */
export interface BoatDifference {
  readonly boatId: string;
  readonly boat: string;
  readonly refitId: string;
  readonly refit: string;
  readonly promised: When | null;
  /** When it is finished; null: that plan does not have it. */
  readonly before: When | null;
  readonly after: When | null;
  /** Later, or (negative) earlier, of what both have. */
  readonly minutes: number | null;
  /** Days lost, or (negative) gained, by the yard's calendar. */
  readonly days: number | null;
  /** From the promise to the handing over, in each; 0 in time. */
  readonly lateBefore: number;
  readonly lateAfter: number;
}

function difference(before: SheetBoat | undefined, after: SheetBoat | undefined): BoatDifference[] {
  const known = after ?? before;
  if (known === undefined) return [];
  const { boatId, boat, refitId, refit, promised } = known;
  const from = before?.finish ?? null;
  const to = after?.finish ?? null;
  const both = from !== null && to !== null;
  return [
    {
      boatId,
      boat,
      refitId,
      refit,
      promised,
      before: from,
      after: to,
      minutes: both ? minutesTo(from, to) : null,
      days: both ? daysTo(from, to) : null,
      lateBefore: before?.lateMinutes ?? 0,
      lateAfter: after?.lateMinutes ?? 0,
    },
  ];
}

export function boatDifferences(before: PlanSheet, after: PlanSheet): BoatDifference[] {
  const had = new Map(before.boats.map((boat) => [boat.refitId, boat]));
  const has = new Set(after.boats.map(({ refitId }) => refitId));
  return [
    ...after.boats.flatMap((boat) => difference(had.get(boat.refitId), boat)),
    ...before.boats.flatMap((boat) => (has.has(boat.refitId) ? [] : difference(boat, undefined))),
  ];
}
