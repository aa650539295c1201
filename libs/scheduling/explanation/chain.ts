import { calendarLatest } from '../bounds/latest.ts';
import type { BindingChain, ChainLink, LinkReason, Plan } from '../model/plan.ts';
import type { Problem } from '../model/problem.ts';
import { compile, type Compiled } from '../search/crew/compiled.ts';
import { calendarStart, type Fit } from '../search/crew/fit.ts';
import { anchorBound, anchorOpenBy } from '../search/crew/inverse.ts';
import { active, locate, type Located, type LocatedPlan } from './located.ts';
import { obstaclesAt, type Obstacle } from './obstacles.ts';

const fit: Fit = { start: 0, finish: 0 };

/** The latest start before the planned one that the crew's calendar and the forbidden starts allow; -1 if none. */
function earlierStart(
  { compiled }: LocatedPlan,
  { mode, table, minutes, placement }: Located,
): number {
  if (placement.start <= 0) return -1;
  return calendarLatest(mode, table, minutes, placement.start - 1, compiled.horizon);
}

/** Why the activity waits from `from` until its planned start, if it does: its calendar, or a forbidden start. */
function waiting(
  { compiled }: LocatedPlan,
  { mode, table, minutes, placement }: Located,
  from: number,
): LinkReason | null {
  if (from >= placement.start) return null;
  const free = { ...mode, forbidden: null };
  const s = calendarStart(free, table, minutes, from, compiled.horizon, fit);
  return s === placement.start ? { kind: 'calendar' } : { kind: 'forbidden' };
}

/** Where the walk is: an activity, a start earlier than planned to ask about, and whom not to blame. */
interface Place {
  readonly activity: number;
  /** Null: the latest earlier start that its calendar permits. */
  readonly start: number | null;
  /** Activities that would move along, since a window ties them to this one. */
  readonly tied: ReadonlySet<number>;
}

/** The place of a follow-up whose window, not its own start, keeps `one` from starting at `start`. */
function followUp(
  located: LocatedPlan,
  one: Located,
  start: number,
  cause: Obstacle,
  tied: ReadonlySet<number>,
): Place | null {
  const other = cause.from === null ? undefined : located.at[cause.from];
  const arc = one.activity.outgoing.find(
    (x) => !x.open && cause.reason.kind === 'lag' && x.lag === cause.reason.lag,
  );
  if (!other || !arc) return null;
  const { problem, compiled } = located;
  const finish = Math.max(start, start + one.placement.finish - one.placement.start);
  const close = anchorBound(problem, arc, arc.fromFinish ? finish : start);
  const latest = calendarLatest(
    other.mode,
    other.table,
    other.minutes,
    Math.min(close, other.placement.start - 1),
    compiled.horizon,
  );
  return {
    activity: other.placement.activity,
    start: latest,
    tied: new Set([...tied, one.placement.activity]),
  };
}

const fresh = (activity: number | null): Place | null =>
  activity === null ? null : { activity, start: null, tied: new Set() };

/** The tied activities, and those that wait for one of them: none of these is to blame for where they are. */
function movingAlong(located: LocatedPlan, tied: ReadonlySet<number>): ReadonlySet<number> {
  const along = new Set(tied);
  for (const a of tied)
    for (const arc of located.at[a]?.activity.outgoing ?? [])
      if (arc.open && active(located, arc)) along.add(arc.to);
  return along;
}

interface Cause {
  readonly obstacle: Obstacle;
  readonly next: Place | null;
}

/**
 * What held an activity back from `start`: the last to let go; ties by kind (lag, builder,
 * resource, air, release), then index. A window to a follow-up counts only where something
 * holds the follow-up too: if both could have moved, it held nothing. Null if there is none.
 */
function causeAt(
  located: LocatedPlan,
  one: Located,
  start: number,
  tied: ReadonlySet<number>,
): Cause | null {
  const along = movingAlong(located, tied);
  const obstacles = obstaclesAt(located, one, start)
    .filter((o) => o.from === null || !along.has(o.from))
    .toSorted((x, y) => y.until - x.until);
  for (const obstacle of obstacles) {
    const tie = followUp(located, one, start, obstacle, tied);
    if (tie === null) return { obstacle, next: fresh(obstacle.from) };
    if (isHeld(located, tie)) return { obstacle, next: tie };
  }
  return null;
}

/** Whether anything but the activities tied to it keeps an activity from the place's start. */
function isHeld(located: LocatedPlan, { activity, start, tied }: Place): boolean {
  const one = located.at[activity];
  if (!one || start === null) return false;
  if (one.activity.frozen !== null || one.activity.setStart >= 0) return true;
  if (start < one.activity.release) return true;
  return causeAt(located, one, start, tied) !== null;
}

/**
 * The latest start before `start` from which the follow-ups that its windows tie to it are
 * reached at their own latest starts; null where there is none to go along with.
 */
function alongWith(located: LocatedPlan, one: Located, start: number): number | null {
  const { problem, compiled } = located;
  const length = one.placement.finish - one.placement.start;
  let latest = start;
  for (const obstacle of obstaclesAt(located, one, start)) {
    const tie = followUp(located, one, start, obstacle, new Set());
    const other = tie === null ? undefined : located.at[tie.activity]?.placement;
    if (!tie || !other || tie.start === null) continue;
    const to = { start: tie.start, finish: tie.start + other.finish - other.start };
    const opening = one.activity.outgoing.filter(
      (arc) => arc.open && arc.to === tie.activity && active(located, arc),
    );
    // Without an opening of its own it still comes after: what lies between sees to that.
    if (opening.length === 0) latest = Math.min(latest, tie.start - length);
    for (const arc of opening) {
      const anchor = anchorOpenBy(problem, arc, arc.toFinish ? to.finish : to.start);
      latest = Math.min(latest, arc.fromFinish ? anchor - length : anchor);
    }
  }
  if (latest >= start) return null;
  return calendarLatest(one.mode, one.table, one.minutes, latest, compiled.horizon);
}

/** How often an activity is moved back with its follow-ups before the walk gives up. */
const MOST_MOVES = 20;

/**
 * The cause that keeps an activity from `earlier`; where only follow-ups that were free to
 * move are in the way, that of the latest start at which they move along (`along`).
 */
function causeWithFollowUps(
  located: LocatedPlan,
  one: Located,
  earlier: number,
): { start: number; along: boolean; cause: Cause | null } {
  let start = earlier;
  for (let moves = 0; ; moves += 1) {
    const along = moves > 0;
    if (start < one.activity.release) return { start, along, cause: null };
    const cause = causeAt(located, one, start, new Set());
    const next = cause === null && moves < MOST_MOVES ? alongWith(located, one, start) : null;
    if (next === null) return { start, along, cause };
    start = next;
  }
}

/** The moment to which its calendar alone puts off an activity tied to an opener, if it does. */
function shiftAfter({ compiled }: LocatedPlan, one: Located, from: number): number | null {
  const free = { ...one.mode, forbidden: null };
  const s = calendarStart(free, one.table, one.minutes, from, compiled.horizon, fit);
  return s > from && s <= one.placement.start ? s : null;
}

/** The links that explain why an activity is not earlier, first cause first, and where to look on. */
function linksOf(located: LocatedPlan, place: Place): { links: ChainLink[]; next: Place | null } {
  const a = place.activity;
  const one = located.at[a];
  if (!one) return { links: [], next: null };
  const { start } = one.placement;
  if (one.activity.frozen !== null || one.activity.setStart >= 0)
    return { links: [{ from: null, to: a, reason: { kind: 'fixed' }, until: start }], next: null };
  const alone = place.start ?? earlierStart(located, one);
  const {
    start: earlier,
    along,
    cause,
  } = place.tied.size > 0
    ? { start: alone, along: false, cause: causeAt(located, one, alone, place.tied) }
    : causeWithFollowUps(located, one, alone);
  const further = (from: number | null, until: number): ChainLink[] => {
    if (place.tied.size > 0) {
      const shift = shiftAfter(located, one, until);
      return shift === null ? [] : [{ from, to: a, reason: { kind: 'calendar' }, until: shift }];
    }
    const reason: LinkReason | null =
      along && until < start ? { kind: 'calendar' } : waiting(located, one, until);
    return reason === null ? [] : [{ from, to: a, reason, until: start }];
  };
  if (earlier < one.activity.release) {
    // Nothing earlier was open to it at all: its release, then perhaps the calendar.
    const { release } = one.activity;
    const links: ChainLink[] = [];
    if (release > 0 || start === 0)
      links.push({ from: null, to: a, reason: { kind: 'release' }, until: release });
    links.push(...further(null, release));
    return { links, next: null };
  }
  if (!cause) return { links: [], next: null };
  const { from, reason, until } = cause.obstacle;
  const link: ChainLink = { from, to: a, reason, until: Math.min(until, start) };
  return { links: [link, ...further(from, until)], next: cause.next };
}

/**
 * One chain of causes behind a refit's finish, first cause first. It starts from the activity
 * that finishes last (the lowest index of several) and asks of each what its latest earlier
 * permitted start would have run into. Of several causes the one that lets go last is named,
 * then by kind and index as in `causeAt`. Two links with the same `to` say that, after the
 * cause had let go, the activity still waited for its crew's shift or a permitted start.
 * Where the window to a follow-up holds an activity back, the follow-up is asked next, as
 * if both moved; a second link of its says when its crew next works, not when it starts.
 */
export function bindingChain(
  problem: Problem,
  plan: Plan,
  refit: number,
  compiled: Compiled = compile(problem),
): BindingChain {
  const located = locate(compiled, plan);
  const last = plan.placements.find(
    ({ activity, finish }) =>
      problem.activities[activity].refit === refit && finish === plan.finishes[refit],
  );
  const links: ChainLink[] = [];
  const seen = new Set<number>();
  let at = fresh(last?.activity ?? null);
  // A follow-up is asked once as itself and once as tied to its opener.
  while (
    at !== null &&
    (at.tied.size > 0 ? at.tied.size <= located.at.length : !seen.has(at.activity))
  ) {
    if (at.tied.size === 0) seen.add(at.activity);
    const found: { links: ChainLink[]; next: Place | null } = linksOf(located, at);
    links.unshift(...found.links);
    at = found.next;
    if (at !== null && at.tied.has(at.activity)) break;
  }
  return { refit, links };
}
