import type { Placement } from '../model/plan.ts';
import type { Interval, Mode } from '../model/problem.ts';
import type { Hours } from './hours.ts';
import type { Reading } from './reading.ts';
import { clip, common } from './spans.ts';

/** The hours of a builder for work placed with or without overtime. */
export function hoursOf(reading: Reading, builder: number, overtime: boolean): Hours {
  const { calendar } = reading.problem.builders[builder];
  return overtime ? reading.extended[calendar] : reading.regular[calendar];
}

/** The resources with a calendar that the mode demands some of, each once. */
export const keepingHours = ({ problem }: Reading, mode: Mode): number[] => [
  ...new Set(
    mode.demands
      .filter(({ resource, amount }) => amount > 0 && problem.resources[resource].calendar !== null)
      .map(({ resource }) => resource),
  ),
];

/** The regular hours of a resource; null where it is always on. */
export function resourceHours(reading: Reading, resource: number): Hours | null {
  const { calendar } = reading.problem.resources[resource];
  return calendar === null ? null : reading.regular[calendar];
}

/**
 * When everybody of a crew and every resource with a calendar works between two minutes;
 * null where there is neither, and nothing ever pauses.
 */
export function commonTime(
  reading: Reading,
  mode: Mode,
  { crew, overtime }: Pick<Placement, 'crew' | 'overtime'>,
  start: number,
  end: number,
): readonly Interval[] | null {
  const all = [
    ...crew.map(({ builder }) => hoursOf(reading, builder, overtime)),
    ...keepingHours(reading, mode).map((resource) => resourceHours(reading, resource)),
  ].filter((one) => one !== null);
  if (all.length === 0) return null;
  return all.reduce<readonly Interval[]>(
    (spans, { working }) => common(spans, clip(working, start, end)),
    [{ start, end }],
  );
}
