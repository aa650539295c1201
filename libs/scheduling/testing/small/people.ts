import type { Builder, Calendar, Interval, Overtime } from '../../model/problem.ts';
import { between, chance, pick, range } from '../draw.ts';
import type { Draft } from './draft.ts';

const SKILLS = 2;

/** A break of a minute or two strictly inside a shift of five minutes or more. */
function breakIn(draft: Draft, shift: Interval): Interval[] {
  const length = shift.end - shift.start;
  if (length < 5 || chance(draft.rng, 0.2)) return [];
  const start = shift.start + between(draft.rng, 2, length - 3);
  return [{ start, end: start + between(draft.rng, 1, 2) }].filter(({ end }) => end < shift.end);
}

function calendar(draft: Draft, index: number): Calendar {
  const { rng, day, days, problem } = draft;
  const shifts: Interval[] = [];
  const overtime: Overtime[] = [];
  for (const d of range(days)) {
    const start = d * day + between(rng, 1, Math.floor(day / 4));
    const end = Math.min(
      problem.horizon,
      start + between(rng, Math.ceil(day / 2), Math.ceil(day * 0.7)),
    );
    if (end - start < 2) continue;
    shifts.push({ start, end });
    if (!draft.wants('overtime') || chance(rng, 0.2)) continue;
    const from = end + (chance(rng, 0.6) ? 0 : 1);
    const to = Math.min(problem.horizon, (d + 1) * day, from + between(rng, 2, 4));
    if (from < to) overtime.push({ start: from, end: to, cost: between(rng, 1, 3) });
  }
  const pauses = draft.wants('relieved-breaks') || draft.wants('observed-breaks');
  return {
    id: `calendar-${index}`,
    shifts,
    breaks: pauses ? shifts.flatMap((shift) => breakIn(draft, shift)) : [],
    overtime,
    source: `hours-${index}`,
  };
}

function builder(draft: Draft, index: number): Builder {
  const { rng, problem } = draft;
  const own = range(SKILLS).filter((skill) => skill === index % SKILLS || chance(rng, 0.4));
  return {
    id: `builder-${index}`,
    calendar: rng.below(problem.calendars.length),
    abilities: own.map((skill) => ({
      skill,
      // The first of each skill can be anybody's senior.
      level: index < SKILLS && skill === index ? 3 : between(rng, 1, 2),
      speed: pick(rng, [50, 80, 100, 100, 100, 150]),
      needsSenior: false,
    })),
    cost: draft.wants('price') ? between(rng, 0, 3) : 0,
    unlimited: false,
    source: `person-${index}`,
  };
}

/** Two calendars, two to four builders of two skills, perhaps a learner among them. */
export function people(draft: Draft): void {
  const { rng, problem } = draft;
  for (const index of range(2)) problem.calendars.push(calendar(draft, index));
  const count = pick(rng, [2, 2, 2, 2, 3, 3]);
  for (const index of range(count)) problem.builders.push(builder(draft, index));
  if (!draft.wants('learner')) return;
  const skill = rng.below(SKILLS);
  problem.builders.push({
    ...builder(draft, count),
    abilities: [{ skill, level: 1, speed: pick(rng, [20, 50, 100]), needsSenior: true }],
  });
}
