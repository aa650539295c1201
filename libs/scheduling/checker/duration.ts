import { commonTime } from './common-time.ts';
import type { Reading, Work } from './reading.ts';
import { length, written } from './spans.ts';
import type { Violation } from './violation.ts';

/**
 * The crew's speed in work units a minute; null where somebody does not have the skill
 * served (reported as crew-skill) or nobody is there (crew-count).
 */
function speed({ problem }: Reading, { placement, mode }: Work): number | null {
  let sum = 0;
  for (const { builder, demand } of placement.crew) {
    const skill = mode.crew[demand]?.skill;
    const ability = problem.builders[builder].abilities.find((one) => one.skill === skill);
    if (!ability) return null;
    sum += ability.speed;
  }
  return sum > 0 ? sum : null;
}

/** Minutes of work that the mode and its crew make, or null where the crew leaves it open. */
function needed(reading: Reading, work: Work): number | null {
  const { mode } = work;
  if (mode.crew.length === 0) return mode.duration;
  const sum = speed(reading, work);
  return sum === null ? null : Math.max(mode.floor, Math.ceil(mode.work / sum));
}

/**
 * The working spans and their sum. Frozen work is one piece from its start to its
 * finish, whatever its mode, and as long as it says. What may pause does so by the calendars
 * of its crew and resources; without any it is one piece too.
 */
export function duration(reading: Reading): Violation[] {
  const found: Violation[] = [];
  for (const work of reading.work) {
    const { placement, activity, mode, frozen } = work;
    const { start, finish, segments } = placement;
    const whole = start < finish ? [{ start, end: finish }] : [];
    const pauses = mode.splittable && !frozen;
    const expected = (pauses ? commonTime(reading, mode, placement, start, finish) : null) ?? whole;
    const piecewise =
      expected.length === segments.length &&
      expected.every((span, i) => span.start === segments[i].start && span.end === segments[i].end);
    const framed =
      segments.length === 0
        ? start === finish
        : segments[0].start === start && segments[segments.length - 1].end === finish;
    const complain = (kind: Violation['kind'], what: string): void => {
      const message = `${activity.id}, ${start}-${finish}, ${what}`;
      found.push({ kind, activities: [placement.activity], constraint: null, message });
    };
    if (!piecewise || !framed)
      complain(
        'segments',
        `works ${written(segments)} where it should work ${written(expected)} from its first minute to its last`,
      );
    const minutes = frozen ? null : needed(reading, work);
    const worked = length(expected);
    if (minutes !== null && worked !== minutes)
      complain('duration', `has ${worked} minutes where ${minutes} are needed`);
  }
  return found;
}
