import type { Random } from '#kernel/random.ts';
import type {
  Barrier,
  Builder,
  Calendar,
  Interval,
  Overtime,
  Part,
  Space,
} from '../../model/problem.ts';
import { between, chance, pick, range, sample } from '../draw.ts';

/** The clock of a made-up problem: how long a day is and how many there are. */
export interface Clock {
  readonly day: number;
  readonly days: number;
}

/** Who, where and with what, before there is any work. */
export interface World {
  readonly clock: Clock;
  readonly horizon: number;
  readonly skills: readonly string[];
  readonly calendars: readonly Calendar[];
  readonly builders: readonly Builder[];
  readonly spaces: readonly Space[];
  readonly barriers: readonly Barrier[];
  readonly parts: readonly Part[];
  /** The calendar of each resource, or null; how much there is of it is found out later. */
  readonly tools: readonly (number | null)[];
  /** How many stocks there are; how much of each is found out later. */
  readonly stocks: number;
}

/** A share of a day in minutes, at least one. */
export const share = (clock: Clock, of: number): number => Math.max(1, Math.round(clock.day * of));

/** One or two breaks inside a shift, or none, neither at its ends. */
function breaksIn(rng: Random, clock: Clock, shift: Interval): Interval[] {
  const found: Interval[] = [];
  let from = shift.start + 1;
  for (let left = rng.below(3); left > 0; left--) {
    const start = from + rng.below(share(clock, 0.2));
    const end = start + between(rng, 1, share(clock, 0.03));
    if (end >= shift.end) break;
    found.push({ start, end });
    from = end + 1;
  }
  return found;
}

/** Overtime in some of the gaps between shifts, often touching the shift before. */
function overtimeBeside(rng: Random, clock: Clock, shifts: readonly Interval[]): Overtime[] {
  const horizon = clock.day * clock.days;
  return shifts.flatMap(({ end }, i) => {
    const gap = { start: end, end: shifts.at(i + 1)?.start ?? horizon };
    const start = gap.start + (chance(rng, 0.7) ? 0 : rng.below(share(clock, 0.1)));
    const until = Math.min(gap.end, start + between(rng, 1, share(clock, 0.16)));
    if (start >= until || chance(rng, 0.5)) return [];
    return [{ start, end: until, cost: rng.below(4) }];
  });
}

function calendar(rng: Random, clock: Clock, index: number): Calendar {
  const shifts: Interval[] = [];
  const usual = between(rng, share(clock, 0.2), share(clock, 0.35));
  for (const d of range(clock.days)) {
    if (d > 0 && chance(rng, 0.12)) continue;
    const start = d * clock.day + usual + rng.below(share(clock, 0.05));
    const end = start + between(rng, share(clock, 0.25), share(clock, 0.4));
    const middle = start + Math.floor((end - start) / 2);
    const gap = share(clock, 0.05);
    if (chance(rng, 0.15) && middle + gap < end)
      shifts.push({ start, end: middle }, { start: middle + gap, end });
    else shifts.push({ start, end });
  }
  return {
    id: `calendar-${index}`,
    shifts,
    breaks: shifts.flatMap((shift) => breaksIn(rng, clock, shift)),
    overtime: overtimeBeside(rng, clock, shifts),
    source: `roster-${index}`,
  };
}

function builder(rng: Random, index: number, skills: number, calendars: number): Builder {
  // Builder k has skill k at least, so that every skill has somebody.
  const own = new Set([index % skills, ...sample(rng, range(skills), rng.below(skills))]);
  return {
    id: `builder-${index}`,
    calendar: rng.below(calendars),
    abilities: [...own].map((skill) => {
      const level = between(rng, 1, 3);
      return {
        skill,
        level,
        speed: pick(rng, [60, 80, 100, 100, 125]),
        needsSenior: level < 3 && chance(rng, 0.25),
      };
    }),
    cost: rng.below(4),
    unlimited: false,
    source: `person-${index}`,
  };
}

function space(
  rng: Random,
  clock: Clock,
  index: number,
  counts: { spaces: number; barriers: number },
): Space {
  const reached = range(counts.spaces).filter((other) => chance(rng, other === index ? 0.9 : 0.35));
  return {
    id: `space-${index}`,
    dustReaches: reached.map((other) => ({
      space: other,
      barrier:
        other !== index && counts.barriers > 0 && chance(rng, 0.7)
          ? rng.below(counts.barriers)
          : null,
    })),
    settling: chance(rng, 0.2) ? 0 : between(rng, 1, share(clock, 0.05)),
    source: `room-${index}`,
  };
}

/** What a problem of `size` activities happens to have. */
export function world(rng: Random, clock: Clock, size: number): World {
  const skills = ['laminating', 'sanding', 'joinery'];
  const calendars = range(3).map((i) => calendar(rng, clock, i));
  const counts = { spaces: 3, barriers: rng.below(3) };
  return {
    clock,
    horizon: clock.day * clock.days,
    skills,
    calendars,
    builders: range(2 + Math.floor(size / 8)).map((i) =>
      builder(rng, i, skills.length, calendars.length),
    ),
    spaces: range(counts.spaces).map((i) => space(rng, clock, i, counts)),
    barriers: range(counts.barriers).map((i) => ({
      id: `barrier-${i}`,
      closed: chance(rng, 0.5),
      source: `door-${i}`,
    })),
    parts: range(1 + rng.below(2 + Math.floor(size / 8))).map((i) => ({
      id: `part-${i}`,
      space: rng.below(counts.spaces),
      source: `panel-${i}`,
    })),
    tools: range(1 + rng.below(3)).map(() => (chance(rng, 0.3) ? rng.below(3) : null)),
    stocks: rng.below(3),
  };
}
