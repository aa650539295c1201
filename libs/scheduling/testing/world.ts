import type { Random } from '#kernel/random.ts';
import type { Builder, Calendar, Interval, Space } from '../model/problem.ts';
import { between, chance, pick, range, sample } from './draw.ts';

/** The clock of a made-up problem: how long a day is and how many there are. */
export interface Clock {
  readonly day: number;
  readonly days: number;
}

/** Who and where, before there is any work. */
export interface World {
  readonly clock: Clock;
  readonly horizon: number;
  readonly skills: readonly string[];
  readonly calendars: readonly Calendar[];
  readonly builders: readonly Builder[];
  readonly spaces: readonly Space[];
}

/** A part of a day in minutes, at least one. */
export const part = (clock: Clock, share: number): number =>
  Math.max(1, Math.round(clock.day * share));

/** One or two breaks inside a shift, or none, neither at its ends. */
function breaksIn(rng: Random, clock: Clock, shift: Interval): Interval[] {
  const found: Interval[] = [];
  let from = shift.start + 1;
  for (let left = rng.below(3); left > 0; left--) {
    const start = from + rng.below(part(clock, 0.2));
    const end = start + between(rng, 1, part(clock, 0.03));
    if (end >= shift.end) break;
    found.push({ start, end });
    from = end + 1;
  }
  return found;
}

function calendar(rng: Random, clock: Clock, index: number): Calendar {
  const shifts: Interval[] = [];
  const usual = between(rng, part(clock, 0.2), part(clock, 0.35));
  for (const d of range(clock.days)) {
    if (d > 0 && chance(rng, 0.12)) continue;
    const start = d * clock.day + usual + rng.below(part(clock, 0.05));
    const end = start + between(rng, part(clock, 0.25), part(clock, 0.4));
    const middle = start + Math.floor((end - start) / 2);
    const gap = part(clock, 0.05);
    if (chance(rng, 0.15) && middle + gap < end)
      shifts.push({ start, end: middle }, { start: middle + gap, end });
    else shifts.push({ start, end });
  }
  return {
    id: `calendar-${index}`,
    shifts,
    breaks: shifts.flatMap((shift) => breaksIn(rng, clock, shift)),
  };
}

function builder(rng: Random, index: number, skills: number, calendars: number): Builder {
  // Builder k has skill k at least, so that every skill has somebody.
  const own = new Set([index % skills, ...sample(rng, range(skills), rng.below(skills))]);
  return {
    id: `builder-${index}`,
    calendar: rng.below(calendars),
    abilities: [...own].map((skill) => ({
      skill,
      level: between(rng, 1, 3),
      speed: pick(rng, [60, 80, 100, 100, 125]),
    })),
    source: `person-${index}`,
  };
}

function space(rng: Random, clock: Clock, index: number, spaces: number): Space {
  return {
    id: `space-${index}`,
    dustReaches: range(spaces).filter((other) => chance(rng, other === index ? 0.9 : 0.3)),
    settling: chance(rng, 0.2) ? 0 : between(rng, 1, part(clock, 0.05)),
    source: `room-${index}`,
  };
}

export function world(rng: Random, clock: Clock, people: number): World {
  const skills = ['laminating', 'sanding', 'joinery'];
  const calendars = range(3).map((i) => calendar(rng, clock, i));
  return {
    clock,
    horizon: clock.day * clock.days,
    skills,
    calendars,
    builders: range(people).map((i) => builder(rng, i, skills.length, calendars.length)),
    spaces: range(3).map((i) => space(rng, clock, i, 3)),
  };
}
