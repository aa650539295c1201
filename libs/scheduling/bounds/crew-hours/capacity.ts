import type { Compiled } from '../../search/crew/compiled.ts';
import {
  flatten,
  minutesBefore,
  spansOf,
  subtract,
  workTable,
  type Spans,
} from '../../search/crew/spans.ts';
import type { State } from '../../search/crew/state.ts';

/** One builder's free time: working minutes, and minutes of breaks inside shifts. */
export interface FreeTime {
  readonly work: Spans;
  readonly breaks: Spans;
}

const listOf = ({ count, starts, ends }: Spans): { start: number; end: number }[] =>
  Array.from({ length: count }, (_, i) => ({ start: starts[i], end: ends[i] }));

/** Everybody's time less what frozen work took of it. */
export function freeTimes(compiled: Compiled, frozen: State): FreeTime[] {
  const { problem, horizon } = compiled;
  return problem.builders.map(({ calendar }, b) => {
    const { shifts, work } = workTable([problem.calendars[calendar]], horizon);
    const { count, starts, ends } = frozen.busy[b];
    const busy = flatten(
      listOf(
        spansOf(
          [...Array(count).keys()].flatMap((i) => [starts[i], ends[i]]),
          horizon,
        ),
      ),
    );
    const worked = flatten(listOf(work));
    return {
      work: spansOf(subtract(worked, busy), horizon),
      breaks: spansOf(subtract(subtract(flatten(listOf(shifts)), worked), busy), horizon),
    };
  });
}

/** Minutes in [from, to); `from` not after `to`. */
export const minutesIn = (spans: Spans, from: number, to: number): number =>
  minutesBefore(spans, to) - minutesBefore(spans, from);
