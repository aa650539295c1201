import { barriers } from '../../checker/barriers.ts';
import { crew } from '../../checker/crew.ts';
import { duration } from '../../checker/duration.ts';
import { lags } from '../../checker/lags.ts';
import { moments } from '../../checker/moments.ts';
import { parts } from '../../checker/parts.ts';
import { read, workOf, type Reading, type Work } from '../../checker/reading.ts';
import { resources } from '../../checker/resources.ts';
import { shifts } from '../../checker/shifts.ts';
import { slots } from '../../checker/slots.ts';
import { stocks } from '../../checker/stocks.ts';
import type { Placement } from '../../model/plan.ts';
import type { Problem } from '../../model/problem.ts';
import { range } from '../draw.ts';
import { candidates } from './candidates.ts';

/**
 * Rules that a part of a plan breaks only if every plan that it is a part of does: adding
 * a placement takes no violation away. Where parts are and what dust reaches is not among them: a
 * move, a cover or a closed door may put that right.
 */
const alone = [duration, shifts, slots, moments];
const gathered = [resources, stocks];
const between = [crew, lags, parts, barriers];

/** What the rules find in some work under the branches of a reading. */
function keeps(
  rules: readonly ((reading: Reading) => readonly unknown[])[],
  reading: Reading,
  placed: readonly Work[],
): boolean {
  const all: (Work | undefined)[] = reading.problem.activities.map(() => undefined);
  for (const work of placed) all[work.placement.activity] = work;
  const part = { ...reading, work: placed, workOf: all };
  return rules.every((rule) => rule(part).length === 0);
}

/** Whether all that is placed so far may go on: what is shared by all of it is enough. */
export const enough = (reading: Reading, placed: readonly Work[]): boolean =>
  keeps(gathered, reading, placed);

/** Whether two go together, whatever else there is. */
export const together = (reading: Reading, a: Work, b: Work): boolean =>
  keeps(between, reading, [a, b]);

/** Placements that nobody could tell apart: by the same people, at the same time, for the same price. */
function token(problem: Problem, { placement }: Work): string {
  const { mode, start, finish, segments, slot, crew: serving } = placement;
  const builders = serving.map(({ builder }) => builder).sort((a, b) => a - b);
  const spans = segments.map((span) => `${span.start}-${span.end}`);
  const extra = serving.some(({ builder }) => {
    const { overtime } = problem.calendars[problem.builders[builder].calendar];
    const end = finish + problem.activities[placement.activity].modes[mode].cleanDown;
    return placement.overtime && overtime.some((one) => one.start < end && start < one.end);
  });
  return [mode, start, finish, spans, slot, builders, extra].join('|');
}

/** A reading in which nothing is placed yet. */
export const empty = (problem: Problem, branches: readonly number[]): Reading =>
  read(problem, { placements: [], branches, finishes: [], values: [0, 0, 0, 0] });

/** By present activity, the placements that break no rule by themselves, earliest finish first. */
export function options(reading: Reading): Work[][] {
  const { problem, present } = reading;
  const possible = (placement: Placement): Work[] => {
    const work = workOf(problem, placement);
    return work && keeps([...alone, ...between, ...gathered], reading, [work]) ? [work] : [];
  };
  return range(problem.activities.length)
    .filter((a) => present[a])
    .map((a) => {
      const byToken = new Map<string, Work>();
      for (const work of candidates(problem, a).flatMap(possible)) {
        const key = token(problem, work);
        if (!byToken.has(key)) byToken.set(key, work);
      }
      return [...byToken.values()].sort((x, y) => x.placement.finish - y.placement.finish);
    });
}
