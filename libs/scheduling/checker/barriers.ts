import type { Interval } from '../model/problem.ts';
import { overlaps } from './overlaps.ts';
import type { Reading, Work } from './reading.ts';
import type { Violation } from './violation.ts';

const acts = (reading: Reading, barrier: number): Work[] =>
  reading.work
    .filter(({ mode }) => mode.barrier?.barrier === barrier)
    .sort((a, b) => a.placement.start - b.placement.start);

/** Acts on one barrier come one after the other. */
export function barriers(reading: Reading): Violation[] {
  return reading.problem.barriers.flatMap(({ id }, barrier) =>
    overlaps(acts(reading, barrier)).map(([first, second]): Violation => ({
      kind: 'barrier',
      activities: [first.placement.activity, second.placement.activity],
      constraint: { kind: 'barrier', barrier },
      message: `${id} is moved by ${first.activity.id} until ${first.placement.finish} and by ${second.activity.id} from ${second.placement.start}`,
    })),
  );
}

/** When a barrier is closed: from the finish of an act that closes it to the start of the next act. */
export function closedSpans(reading: Reading, barrier: number): Interval[] {
  const own = acts(reading, barrier);
  const states = [
    { closed: reading.problem.barriers[barrier].closed, from: -Infinity },
    ...own.map(({ placement, mode }) => ({
      closed: mode.barrier?.closes === true,
      from: placement.finish,
    })),
  ];
  return states.flatMap(({ closed, from }, i) => {
    const end = i < own.length ? own[i].placement.start : Infinity;
    return closed && from < end ? [{ start: from, end }] : [];
  });
}
