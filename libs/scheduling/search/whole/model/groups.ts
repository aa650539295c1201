import type { Assignment, Placement } from '../../../model/plan.ts';
import type { Activity, Interval, Mode, Problem } from '../../../model/problem.ts';
import type { Spans } from '../../crew/compiled/spans.ts';
import type { Pieces } from '../rules/pieces.ts';
import { ableFor, countOf, crewsOf, type Able } from './crews.ts';
import { idOf, type Ground } from './ground.ts';
import { inOnePiece, limited, withPauses } from './places.ts';

/** More crews of one activity than this are counted by class, not listed. */
const MOST_LISTED = 160;
const MOST_ENUMERATED = 20_000;

/** A mode with crews that share their time and take equally long. */
export interface Group {
  readonly mode: number;
  readonly minutes: number;
  readonly overtime: boolean;
  readonly hours: Spans | null;
  readonly shifts: Spans | null;
  readonly slot: number | null;
  readonly crews: readonly Assignment[][];
  /** Who may serve which demand, where crews are counted. */
  readonly able: readonly (readonly Able[])[] | null;
  /** There are more crews than can be told apart: nothing is asked but the least it takes. */
  readonly isRelaxed: boolean;
}

const hasOvertime = ({ builders, calendars }: Problem, builder: number): boolean =>
  calendars[builders[builder].calendar].overtime.length > 0;

/** Slots that can be booked; apart where they have a price. */
function slotsOf({ slotLists, now }: Problem, { slots }: Mode): (number | null)[] {
  if (slots === null) return [null];
  const open = slotLists[slots].slots.flatMap(({ bookBy }, k) => (bookBy >= now ? [k] : []));
  return slotLists[slots].slots.some(({ cost }) => cost > 0) ? open : [null];
}

/** Whether everybody who may serve is as good as any other. */
function isUniform({ problem }: Ground, mode: Mode, able: readonly (readonly Able[])[]): boolean {
  const all = able.flat();
  const calendars = new Set(all.map(({ builder }) => problem.builders[builder].calendar));
  const rates = new Set(all.map(({ builder }) => problem.builders[builder].cost));
  const least = able.reduce(
    (sum, list, d) => sum + mode.crew[d].count * Math.min(...list.map(({ speed }) => speed)),
    0,
  );
  const most = able.reduce(
    (sum, list, d) => sum + mode.crew[d].count * Math.max(...list.map(({ speed }) => speed)),
    0,
  );
  const minutes = (speed: number): number => Math.max(mode.floor, Math.ceil(mode.work / speed));
  return (
    calendars.size === 1 &&
    rates.size === 1 &&
    minutes(least) === minutes(most) &&
    all.every(({ needsSenior, builder }) => !needsSenior && !hasOvertime(problem, builder))
  );
}

/** The ways of a mode. */
export function groupsOf(ground: Ground, mode: Mode, m: number, activity: Activity): Group[] {
  const { problem, classes, hours } = ground;
  const slots = slotsOf(problem, mode);
  const wanted = activity.fixed?.builders ?? null;
  const timesOf = (builders: readonly number[], overtime: boolean, minutes: number) => {
    const pausing = mode.splittable && minutes > 0;
    return {
      hours: pausing ? hours.working(mode, builders, overtime) : null,
      shifts: pausing || mode.splittable ? null : hours.shifts(mode, builders, overtime),
    };
  };
  if (mode.crew.length === 0) {
    if (wanted !== null && wanted.length > 0) return [];
    const minutes = mode.duration;
    const base = { mode: m, minutes, overtime: false, ...timesOf([], false, minutes) };
    return slots.map((slot) => ({ ...base, slot, crews: [[]], able: null, isRelaxed: false }));
  }
  const able = mode.crew.map((demand) => ableFor(problem, demand, wanted));
  if (able.some((list, d) => list.length < mode.crew[d].count)) return [];
  const listed = countOf(able, mode) <= MOST_ENUMERATED;
  const crews = listed ? crewsOf(problem, mode, able, classes, wanted) : [];
  if (!listed || crews.length * slots.length > MOST_LISTED) {
    if (wanted !== null || !isUniform(ground, mode, able))
      return slots.map((slot) => relaxed(mode, m, able, slot));
    const [{ builder }] = able.flat();
    const speed = able.reduce((sum, list, d) => sum + mode.crew[d].count * list[0].speed, 0);
    const minutes = Math.max(mode.floor, Math.ceil(mode.work / speed));
    const times = timesOf([builder], false, minutes);
    const base = { mode: m, minutes, overtime: false, ...times, crews: [], able, isRelaxed: false };
    return slots.map((slot) => ({ ...base, slot }));
  }
  const groups = new Map<string, { one: Omit<Group, 'crews'>; crews: Assignment[][] }>();
  for (const { members, speed } of crews) {
    const builders = members.map(({ builder }) => builder);
    const minutes = Math.max(mode.floor, Math.ceil(mode.work / speed));
    const stretches = builders.some((b) => hasOvertime(problem, b));
    for (const overtime of stretches ? [false, true] : [false])
      for (const slot of slots) {
        const times = timesOf(builders, overtime, minutes);
        const key = [
          minutes,
          overtime,
          slot,
          idOf(ground.stock, times.hours),
          idOf(ground.stock, times.shifts),
        ].join();
        const own = groups.get(key) ?? {
          one: { mode: m, minutes, overtime, slot, able: null, isRelaxed: false, ...times },
          crews: [],
        };
        groups.set(key, own);
        own.crews.push([...members]);
      }
  }
  return [...groups.values()].map(({ one, crews: all }) => ({ ...one, crews: all }));
}

/** The one way that the plan has. */
export function groupAsPlaced(
  { problem, hours, classes }: Ground,
  mode: Mode,
  kept: Placement,
): Group {
  const builders = kept.crew.map(({ builder }) => builder);
  const speed = kept.crew.reduce((sum, { builder, demand }) => {
    const { skill } = mode.crew[demand];
    const own = problem.builders[builder].abilities.find((one) => one.skill === skill);
    return sum + (own?.speed ?? 0);
  }, 0);
  const minutes =
    mode.crew.length === 0 ? mode.duration : Math.max(mode.floor, Math.ceil(mode.work / speed));
  const pausing = mode.splittable && minutes > 0;
  const { overtime } = kept;
  const priced =
    mode.slots !== null && problem.slotLists[mode.slots].slots.some(({ cost }) => cost > 0);
  // Of a class any will do, and the first stands for it.
  const used = new Set<number>();
  const crew = kept.crew.map(({ builder, demand }) => {
    const one = classes.members[classes.of[builder]].find((other) => !used.has(other)) ?? builder;
    used.add(one);
    return { builder: one, demand };
  });
  return {
    mode: kept.mode,
    minutes,
    overtime,
    hours: pausing ? hours.working(mode, builders, overtime) : null,
    shifts: mode.splittable ? null : hours.shifts(mode, builders, overtime),
    slot: priced ? kept.slot : null,
    crews: [crew],
    able: null,
    isRelaxed: false,
  };
}

/** As quick as the best people make it, at any hour. */
function relaxed(
  mode: Mode,
  m: number,
  able: readonly (readonly Able[])[],
  slot: number | null,
): Group {
  const speed = able.reduce((sum, list, d) => {
    const speeds = list.map((one) => one.speed).sort((a, b) => b - a);
    return sum + speeds.slice(0, mode.crew[d].count).reduce((all, one) => all + one, 0);
  }, 0);
  return {
    mode: m,
    minutes: Math.max(mode.floor, Math.ceil(mode.work / speed)),
    overtime: false,
    hours: null,
    shifts: null,
    slot,
    crews: [[]],
    able: null,
    isRelaxed: true,
  };
}

export function piecesOf(ground: Ground, a: number, group: Group): Pieces {
  const { places } = ground.stock;
  const key = [
    a,
    group.mode,
    group.minutes,
    group.slot,
    idOf(ground.stock, group.hours),
    idOf(ground.stock, group.shifts),
  ].join();
  const known = places.get(key) ?? placesOf(ground, a, group);
  places.set(key, known);
  return known;
}

function placesOf({ problem }: Ground, a: number, group: Group): Pieces {
  const activity = problem.activities[a];
  const mode = activity.modes[group.mode];
  const { horizon, slotLists, now } = problem;
  const { minutes, hours, shifts, slot } = group;
  const { cleanDown, forbidden } = mode;
  const base =
    hours !== null && minutes > 0
      ? withPauses(hours, minutes)
      : inOnePiece(shifts, minutes, cleanDown, horizon);
  const holes = (anchor: 'start' | 'finish'): Interval[] =>
    forbidden.flatMap((one) => (one.anchor === anchor ? one.spans : []));
  const open =
    mode.slots === null
      ? null
      : slotLists[mode.slots].slots.filter(
          ({ bookBy }, k) => bookBy >= now && (slot === null || slot === k),
        );
  return limited(base, {
    from: activity.releases.reduce((latest, { at }) => Math.max(latest, at), 0),
    start: activity.fixed?.start ?? null,
    finish: activity.fixed?.finish ?? null,
    by: horizon,
    cleanDown,
    startHoles: holes('start'),
    finishHoles: holes('finish'),
    slots: open,
  });
}
