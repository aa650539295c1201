import type { Assignment } from '../../model/plan.ts';
import type { Activity, Interval, Mode, Problem } from '../../model/problem.ts';
import { crewsOf, type Crew } from './crews.ts';
import { common, open, runEnds, split, type Minutes } from './minutes.ts';

/** How an activity is done, apart from when. */
export interface Way {
  readonly activity: number;
  readonly mode: number;
  readonly work: Mode;
  readonly crew: readonly Assignment[];
  readonly overtime: boolean;
  readonly slot: number | null;
  readonly frozen: boolean;
}

/** One place for an activity: what the search chooses from. */
export interface Candidate {
  readonly way: Way;
  readonly start: number;
  readonly finish: number;
  /** The finish and the clean-down after it. */
  readonly end: number;
  /** Working spans, clean-down not among them. */
  readonly segments: readonly Interval[];
  /** Spans in which crew and demands are taken. */
  readonly busy: readonly Interval[];
  /** Money, slots not included. */
  readonly money: number;
  /** Its share of the disturbance. */
  readonly moved: number;
}

const NOBODY: Crew = { members: [], speed: 0 };

/** Work and clean-down in one list of spans. */
function taken(segments: readonly Interval[], finish: number, end: number): readonly Interval[] {
  if (end === finish) return segments;
  const last = segments.at(-1);
  if (last === undefined) return [{ start: finish, end }];
  return [...segments.slice(0, -1), { start: last.start, end }];
}

/** What a placement of published work weighs in rank 4. */
function disturbance(
  problem: Problem,
  activity: number,
  start: number,
  crew: readonly Assignment[],
): number {
  let sum = 0;
  for (const task of problem.published?.tasks ?? []) {
    if (task.activity !== activity) continue;
    const people = new Set(task.builders);
    const same = people.size === crew.length && crew.every(({ builder }) => people.has(builder));
    if (Math.abs(start - task.start) > (problem.published?.tolerance ?? 0)) sum += task.weight;
    if (!same) sum += task.weight;
  }
  return sum;
}

/** What a builder's minutes in the spans cost, and how many of them are overtime. */
function labour(
  problem: Problem,
  builder: number,
  busy: readonly Interval[],
  overtime: boolean,
): { money: number; extra: number } {
  const { cost, calendar } = problem.builders[builder];
  let money = 0;
  let extra = 0;
  for (const span of busy) {
    money += cost * (span.end - span.start);
    if (!overtime) continue;
    for (const one of problem.calendars[calendar].overtime) {
      const shared = Math.min(span.end, one.end) - Math.max(span.start, one.start);
      if (shared <= 0) continue;
      extra += shared;
      money += one.cost * shared;
    }
  }
  return { money, extra };
}

/** Frozen work: exactly where it was, whatever its mode says. */
function frozenCandidates(problem: Problem, activity: number, own: Activity): Candidate[] {
  const { start, finish, builders } = own.fixed ?? { start: null, finish: null, builders: null };
  if (start === null || finish === null || finish > problem.horizon) return [];
  return own.modes.map((work, mode) => {
    const demandOf = work.crew.flatMap(({ count }, demand) => Array<number>(count).fill(demand));
    const crew = (builders ?? []).map((builder, i) => ({ builder, demand: demandOf.at(i) ?? 0 }));
    const way = { activity, mode, work, crew, overtime: false, slot: null, frozen: true };
    const segments = start < finish ? [{ start, end: finish }] : [];
    const moved = disturbance(problem, activity, start, crew);
    return { way, start, finish, end: finish, segments, busy: segments, money: 0, moved };
  });
}

/** The slots of a mode that can still be booked; one null where it needs none. */
function slotsOf(problem: Problem, work: Mode): readonly (number | null)[] {
  if (work.slots === null) return [null];
  return problem.slotLists[work.slots].slots.flatMap(({ bookBy }, slot) =>
    bookBy < problem.now ? [] : [slot],
  );
}

/** The minutes in which work may begin and go on; null: all. */
function roomFor(problem: Problem, work: Mode, crew: Crew, overtime: boolean): Minutes | null {
  const { horizon, calendars } = problem;
  const people = new Set(crew.members.map(({ builder }) => problem.builders[builder].calendar));
  const observed = work.splittable || work.breaks === 'observed';
  const tools = new Set(
    work.demands.flatMap(({ resource, amount }) => {
      const { calendar } = problem.resources[resource];
      return calendar === null || amount === 0 ? [] : [calendar];
    }),
  );
  return common([
    ...[...people].map((calendar) => open(calendars[calendar], horizon, overtime, observed)),
    ...[...tools].map((calendar) => open(calendars[calendar], horizon, false, true)),
  ]);
}

/**
 * The segments of so much work, from each start with room for it and the clean-down behind it;
 * of no minutes, which are nowhere in particular, only the start.
 */
function* places(
  work: Mode,
  minutes: Minutes | null,
  duration: number,
  horizon: number,
): Generator<readonly Interval[] | number> {
  const whole = duration + work.cleanDown;
  if (work.splittable && minutes !== null && duration > 0) {
    for (let t = 0; t < horizon; t += 1) {
      if (minutes[t] === 0) continue;
      const segments = split(minutes, t, duration);
      if (segments === null) return;
      yield segments;
    }
    return;
  }
  const ends = minutes === null ? null : runEnds(minutes);
  for (let t = 0; t + whole <= horizon; t += 1) {
    if (whole > 0 && ends !== null && ends[t] < t + whole) continue;
    if (duration > 0) yield [{ start: t, end: t + duration }];
    else yield t;
  }
}

const isInside = (spans: readonly Interval[], t: number): boolean =>
  spans.some(({ start, end }) => start <= t && t < end);

/**
 * Every candidate of an activity that is allowed by itself, by start, then finish, then cost.
 * Overtime is a way of its own only for work that has overtime minutes: without, it is the
 * same work. Lags are left to the search, those of an activity to itself too.
 */
export function candidatesOf(problem: Problem, activity: number): Candidate[] {
  const own = problem.activities[activity];
  const { fixed, modes } = own;
  if (fixed?.kind === 'frozen') return frozenCandidates(problem, activity, own);
  const release = own.releases.reduce((latest, { at }) => Math.max(latest, at), 0);
  const found: Candidate[] = [];
  modes.forEach((work, mode) => {
    const wanted = fixed?.builders ?? null;
    const alone = wanted === null || wanted.length === 0 ? [NOBODY] : [];
    const crews = work.crew.length === 0 ? alone : crewsOf(problem, work, wanted);
    for (const crew of crews) {
      const duration =
        work.crew.length === 0
          ? work.duration
          : Math.max(work.floor, Math.ceil(work.work / crew.speed));
      const stretches = crew.members.some(
        ({ builder }) => problem.calendars[problem.builders[builder].calendar].overtime.length > 0,
      );
      for (const overtime of stretches ? [false, true] : [false]) {
        const room = roomFor(problem, work, crew, overtime);
        const ways = slotsOf(problem, work).map((slot) => {
          const crewOf = crew.members;
          return { activity, mode, work, crew: crewOf, overtime, slot, frozen: false };
        });
        for (const place of places(work, room, duration, problem.horizon)) {
          const segments = typeof place === 'number' ? [] : place;
          const start = typeof place === 'number' ? place : place[0].start;
          const finish = segments.at(-1)?.end ?? start;
          const end = finish + work.cleanDown;
          if (start < release || end > problem.horizon) continue;
          if (fixed !== null && (fixed.start ?? start) !== start) continue;
          if (fixed !== null && (fixed.finish ?? finish) !== finish) continue;
          if (work.forbidden.some((f) => isInside(f.spans, f.anchor === 'start' ? start : finish)))
            continue;
          const busy = taken(segments, finish, end);
          let money = work.cost;
          let extra = 0;
          for (const { builder } of crew.members) {
            const paid = labour(problem, builder, busy, overtime);
            money += paid.money;
            extra += paid.extra;
          }
          if (overtime && extra === 0) continue;
          const moved = disturbance(problem, activity, start, crew.members);
          for (const way of ways) {
            if (way.slot !== null && work.slots !== null) {
              const slot = problem.slotLists[work.slots].slots[way.slot];
              if (start < slot.start || end > slot.end) continue;
            }
            found.push({ way, start, finish, end, segments, busy, money, moved });
          }
        }
      }
    }
  });
  return found.sort((a, b) => a.start - b.start || a.finish - b.finish || a.money - b.money);
}
