import { overlaps } from './overlaps.ts';
import type { Reading, Work } from './reading.ts';
import type { Violation } from './violation.ts';

const on = (reading: Reading, part: number): Work[] =>
  reading.work.filter(({ activity }) => activity.parts.includes(part));

/** One activity at a time on a part, from start to finish. */
export function parts(reading: Reading): Violation[] {
  return reading.problem.parts.flatMap(({ id }, part) =>
    overlaps(on(reading, part)).map(([first, second]): Violation => ({
      kind: 'part',
      activities: [first.placement.activity, second.placement.activity],
      constraint: { kind: 'part', part },
      message: `${id} is worked on by ${first.activity.id} until ${first.placement.finish} and by ${second.activity.id} from ${second.placement.start}`,
    })),
  );
}

/** Activities that move a part, in order. */
export const moves = (reading: Reading, part: number): Work[] =>
  on(reading, part)
    .filter(({ mode }) => mode.movesTo !== null)
    .sort(
      (a, b) => a.placement.finish - b.placement.finish || a.placement.start - b.placement.start,
    );

/** Work in a space finds its parts there when it starts; where frozen work found them is its own affair. */
export function locations(reading: Reading): Violation[] {
  const { problem, work } = reading;
  return problem.parts.flatMap(({ id, space }, part) => {
    const moved = moves(reading, part);
    return work.flatMap(({ placement, activity, mode, frozen }): Violation[] => {
      if (frozen || mode.space === null || !activity.parts.includes(part)) return [];
      const last = moved.findLast((move) => move.placement.finish <= placement.start);
      const where = last?.mode.movesTo ?? space;
      if (where === mode.space) return [];
      return [
        {
          kind: 'location',
          activities: [placement.activity, ...(last ? [last.placement.activity] : [])],
          constraint: { kind: 'part', part },
          message: `${id} is in ${problem.spaces[where].id} at ${placement.start}, where ${activity.id} needs it in ${problem.spaces[mode.space].id}`,
        },
      ];
    });
  });
}
