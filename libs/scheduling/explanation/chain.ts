import type { Constraint } from '../model/constraint.ts';
import type { BindingChain, ChainLink, Obstacle, Plan } from '../model/plan.ts';
import type { Problem } from '../model/problem.ts';
import { locate, type Located, type LocatedPlan } from './located.ts';
import { aloneAt, othersAt } from './obstacles/at.ts';
import { alongWith, followUp, movingAlong, permitted, putOffTo, type Place } from './ties.ts';

const fresh = (activity: number | null): Place | null =>
  activity === null ? null : { activity, start: null, tied: new Set() };

interface Cause {
  readonly obstacle: Obstacle;
  readonly next: Place | null;
}

/** Frozen, or set to a start by the foreman. */
const isPlaced = ({ activity, frozen }: Located): boolean =>
  frozen || (activity.fixed?.start ?? null) !== null;

/** The release that comes last, and when; -1 where there is none. */
function lastRelease({ activity }: Located): { index: number; at: number } {
  let last = { index: -1, at: -1 };
  activity.releases.forEach(({ at }, index) => {
    if (at > last.at) last = { index, at };
  });
  return last;
}

/**
 * What held an activity back from `start`: the last to let go; ties in the order of `othersAt`.
 * A window to a follow-up counts only where something holds the follow-up too: if both could
 * have moved, it held nothing. Null if there is none.
 */
function causeAt(
  located: LocatedPlan,
  one: Located,
  start: number,
  tied: ReadonlySet<number>,
): Cause | null {
  const along = movingAlong(located, tied);
  const obstacles = othersAt(located, one, start)
    .filter((o) => o.from === null || !along.has(o.from))
    .toSorted((x, y) => y.until - x.until);
  for (const obstacle of obstacles) {
    const tie = followUp(located, one, start, obstacle, tied);
    if (tie === null) return { obstacle, next: fresh(obstacle.from) };
    if (!tied.has(tie.activity) && isHeld(located, tie)) return { obstacle, next: tie };
  }
  return null;
}

/** Whether anything but the activities tied to it keeps an activity from the place's start. */
function isHeld(located: LocatedPlan, { activity, start, tied }: Place): boolean {
  const one = located.at[activity];
  if (!one || start === null) return false;
  if (isPlaced(one) || start < lastRelease(one).at) return true;
  return causeAt(located, one, start, tied) !== null;
}

/** How often an activity is moved back with its follow-ups before the walk gives up. */
const MOST_MOVES = 20;

/**
 * The cause that keeps an activity from `earlier`; where only follow-ups that were free to move
 * are in the way, that of the latest start at which they move along (`along`: the last of them).
 */
function causeWithFollowUps(
  located: LocatedPlan,
  one: Located,
  earlier: number,
): { start: number; along: number; cause: Cause | null } {
  let start = earlier;
  let along = -1;
  for (let moves = 0; ; moves += 1) {
    if (start < Math.max(0, lastRelease(one).at)) return { start, along, cause: null };
    const cause = causeAt(located, one, start, new Set());
    const next = cause === null && moves < MOST_MOVES ? alongWith(located, one, start) : null;
    if (next === null) return { start, along, cause };
    start = next.start;
    along = next.followUp;
  }
}

/** What its own moments refuse in the minute before `start`: the first of `aloneAt`. */
function refusedBefore(located: LocatedPlan, a: number, start: number): Constraint | null {
  const one = located.at[a];
  return one ? (aloneAt(located, one, start - 1).at(0)?.reason ?? null) : null;
}

/** The link that says for what an activity still waited once its cause had let go at `until`. */
function further(
  located: LocatedPlan,
  one: Located,
  place: Place,
  along: number,
  from: number | null,
  until: number,
): ChainLink[] {
  const { activity: to, start } = one.placement;
  if (place.tied.size > 0) {
    const shift = putOffTo(located, one, until);
    const reason = shift === null ? null : refusedBefore(located, to, shift);
    return shift === null || reason === null ? [] : [{ from, to, reason, until: shift }];
  }
  if (until >= start) return [];
  const own = refusedBefore(located, to, start);
  const other = along < 0 ? undefined : located.at[along];
  const reason = own ?? (other ? refusedBefore(located, along, other.placement.start) : null);
  return reason === null ? [] : [{ from, to, reason, until: start }];
}

/** The links that explain why an activity is not earlier, first cause first, and where to look on. */
function linksOf(located: LocatedPlan, place: Place): { links: ChainLink[]; next: Place | null } {
  const to = place.activity;
  const one = located.at[to];
  if (!one) return { links: [], next: null };
  const { start } = one.placement;
  if (isPlaced(one)) {
    const reason = { kind: 'fixed', activity: to } as const;
    return { links: [{ from: null, to, reason, until: start }], next: null };
  }
  const alone = place.start ?? permitted(located, one, start - 1);
  const {
    start: earlier,
    along,
    cause,
  } = place.tied.size > 0
    ? { start: alone, along: -1, cause: causeAt(located, one, alone, place.tied) }
    : causeWithFollowUps(located, one, alone);
  const release = lastRelease(one);
  if (earlier < Math.max(0, release.at)) {
    // Nothing earlier was open to it at all: its release, then perhaps its hours.
    const links: ChainLink[] = [];
    if (release.at > 0) {
      const reason = { kind: 'release', activity: to, release: release.index } as const;
      links.push({ from: null, to, reason, until: release.at });
    } else if (start === 0) links.push({ from: null, to, reason: { kind: 'horizon' }, until: 0 });
    links.push(...further(located, one, place, along, null, Math.max(0, release.at)));
    return { links, next: null };
  }
  if (!cause) return { links: [], next: null };
  const { from, reason, until } = cause.obstacle;
  const link: ChainLink = { from, to, reason, until: Math.min(until, start) };
  const links = [link, ...further(located, one, place, along, from, until)];
  return { links, next: cause.next };
}

/**
 * One chain of causes behind a refit's finish, first cause first. It starts from the activity
 * that finishes last (the lowest index of several) and asks of each what its latest earlier
 * permitted start would have run into. Of several causes the one that lets go last is named,
 * then by kind (lags, builders, parts, resources and holds, barriers, dust) and index. Two links
 * with the same `to` say that, after the cause had let go, the activity still waited for its own
 * hours, slot or a permitted moment. Where the window to a follow-up holds an activity back, the
 * follow-up is asked next, as if both moved; a second link of its says when its people next
 * work, not when it starts.
 */
export const bindingChain = (problem: Problem, plan: Plan, refit: number): BindingChain =>
  chainOf(locate(problem, plan), refit);

/** The binding chain of each refit. */
export function bindingChains(problem: Problem, plan: Plan): BindingChain[] {
  const located = locate(problem, plan);
  return problem.refits.map((_, refit) => chainOf(located, refit));
}

function chainOf(located: LocatedPlan, refit: number): BindingChain {
  const { problem, plan } = located;
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
