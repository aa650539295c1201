import { shiftFaults } from '#calendar/shifts/faults.ts';
import { pathOf } from '../path.ts';
import type { Absence, Hours } from '../spaces.ts';
import type { Report } from './faults.ts';

/** Minutes since 1970. */
export const minuteOf = (instant: string): number => Date.parse(instant) / 60_000;

/** Weekly hours: times, and spans that overlap. */
export function hoursFaults(
  to: Report,
  name: string,
  hours: readonly Hours[] | null,
  path: readonly PropertyKey[],
): void {
  const pattern = (hours ?? []).map((span) => ({ ...span, breaks: [] }));
  const here = pathOf(path);
  for (const found of shiftFaults(pattern, [], { pattern: here, exceptions: here }))
    to.faults.push({ ...found, message: `${name}: ${found.message}` });
}

/** A span of instants that ends before it begins, or has no length. */
export function spanFault(
  to: Report,
  name: string,
  span: { readonly from: string; readonly to: string },
  path: readonly PropertyKey[],
): void {
  if (Date.parse(span.from) < Date.parse(span.to)) return;
  to.add(
    'input.field',
    [...path, 'to'],
    `${name}: ${span.to} is not after ${span.from}, where the span begins`,
    { value: span.to, cure: 'End the span after it begins.' },
  );
}

export function absenceFaults(
  to: Report,
  name: string,
  absences: readonly Absence[],
  path: readonly PropertyKey[],
): void {
  absences.forEach((absence, k) => {
    spanFault(to, name, absence, [...path, k]);
  });
}
