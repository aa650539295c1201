import type { Problem } from '../../model/problem.ts';
import { minutesBefore, subtract, type Spans } from '../../search/crew/compiled/spans.ts';
import { frozenTime } from '../ground.ts';
import { hoursOf, indexed, shared } from '../hours.ts';

/** One builder's free time, overtime included: working minutes, and minutes of breaks inside shifts. */
export interface FreeTime {
  readonly work: Spans;
  readonly breaks: Spans;
}

/** Everybody's time less what frozen work took of it. */
export function freeTimes(problem: Problem): FreeTime[] {
  const frozen = frozenTime(problem);
  return problem.builders.map(({ calendar }, b) => {
    const { shifts, work } = hoursOf(problem.calendars[calendar], true);
    const free = subtract(shared(problem, [work]), frozen[b]);
    const resting = subtract(subtract(shared(problem, [shifts]), work), frozen[b]);
    return { work: indexed(problem, free), breaks: indexed(problem, resting) };
  });
}

/** Minutes in [from, to); `from` not after `to`. */
export const minutesIn = (spans: Spans, from: number, to: number): number =>
  minutesBefore(spans, to) - minutesBefore(spans, from);
