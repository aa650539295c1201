import { calendarLatest } from '../bounds/latest.ts';
import type { BindingChain, ChainLink, LinkReason, Plan } from '../model/plan.ts';
import type { Problem } from '../model/problem.ts';
import { compile, type Compiled } from '../search/crew/compiled.ts';
import { calendarStart, type Fit } from '../search/crew/fit.ts';
import { locate, type Located, type LocatedPlan } from './located.ts';
import { obstaclesAt, type Obstacle } from './obstacles.ts';

const fit: Fit = { start: 0, finish: 0 };

/** The latest start before the planned one that the crew's calendar and the forbidden starts allow; -1 if none. */
function earlierStart({ compiled }: LocatedPlan, { mode, table, minutes, placement }: Located): number {
  if (placement.start <= 0) return -1;
  return calendarLatest(mode, table, minutes, placement.start - 1, compiled.horizon);
}

/** Why the activity waits from `from` until its planned start, if it does: its calendar, or a forbidden start. */
function waiting({ compiled }: LocatedPlan, { mode, table, minutes, placement }: Located, from: number): LinkReason | null {
  if (from >= placement.start) return null;
  const free = { ...mode, forbidden: null };
  const s = calendarStart(free, table, minutes, from, compiled.horizon, fit);
  return s === placement.start ? { kind: 'calendar' } : { kind: 'forbidden' };
}

/** Of what holds an activity back, the last to let go; ties by kind (lag, builder, resource, air, release), then index. */
function strongest(obstacles: readonly Obstacle[]): Obstacle | null {
  let best: Obstacle | null = null;
  for (const one of obstacles) if (best === null || one.until > best.until) best = one;
  return best;
}

/** The links that explain one activity's start, first cause first, and where to look on. */
function linksOf(located: LocatedPlan, a: number): { links: ChainLink[]; next: number | null } {
  const one = located.at[a];
  if (!one) return { links: [], next: null };
  const { start } = one.placement;
  if (one.activity.frozen !== null || one.activity.setStart >= 0)
    return { links: [{ from: null, to: a, reason: { kind: 'fixed' }, until: start }], next: null };
  const earlier = earlierStart(located, one);
  if (earlier < one.activity.release) {
    // Nothing earlier was open to it at all: its release, then perhaps the calendar.
    const { release } = one.activity;
    const links: ChainLink[] = [];
    if (release > 0 || start === 0) links.push({ from: null, to: a, reason: { kind: 'release' }, until: release });
    const wait = waiting(located, one, release);
    if (wait) links.push({ from: null, to: a, reason: wait, until: start });
    return { links, next: null };
  }
  const cause = strongest(obstaclesAt(located, one, earlier));
  if (!cause) return { links: [], next: null };
  const links: ChainLink[] = [{ from: cause.from, to: a, reason: cause.reason, until: Math.min(cause.until, start) }];
  const wait = waiting(located, one, cause.until);
  if (wait) links.push({ from: cause.from, to: a, reason: wait, until: start });
  return { links, next: cause.from };
}

/**
 * One chain of causes behind a refit's finish, first cause first. It starts from the activity
 * that finishes last (the lowest index of several) and asks of each what its latest earlier
 * permitted start would have run into. Of several causes the one that lets go last is named,
 * then by kind and index as in `strongest`. Two links with the same `to` say that, after the
 * cause had let go, the activity still waited for its crew's shift or a permitted start.
 */
export function bindingChain(
  problem: Problem,
  plan: Plan,
  refit: number,
  compiled: Compiled = compile(problem),
): BindingChain {
  const located = locate(compiled, plan);
  let at: number | null = null;
  for (const { activity, finish } of plan.placements)
    if (problem.activities[activity].refit === refit && finish === plan.finishes[refit] && at === null) at = activity;
  const links: ChainLink[] = [];
  const seen = new Set<number>();
  while (at !== null && !seen.has(at)) {
    seen.add(at);
    const found: { links: ChainLink[]; next: number | null } = linksOf(located, at);
    links.unshift(...found.links);
    at = found.next;
  }
  return { refit, links };
}
