import type { LinkReason } from '../model/plan.ts';
import { calendarStart, type Fit } from '../search/crew/fit.ts';
import { anchorBound, anchorReaching, openUntil } from '../search/crew/inverse.ts';
import { spanAfter } from '../search/crew/spans.ts';
import { exposureOf, reaches, settlingOf } from './exposure.ts';
import { active, type Located, type LocatedPlan } from './located.ts';

/** Something that a start would run into, from the work of `from` (null: nobody's), and until when. */
export interface Obstacle {
  readonly from: number | null;
  readonly reason: LinkReason;
  readonly until: number;
}

interface Span {
  readonly start: number;
  readonly end: number;
}

const fit: Fit = { start: 0, finish: 0 };

function spansFrom({ mode, table }: Located, start: number, finish: number): Span[] {
  if (start >= finish) return [];
  if (!mode.pauses) return [{ start, end: finish }];
  const { work } = table;
  const spans: Span[] = [];
  for (let i = spanAfter(work, start); i < work.count && work.starts[i] < finish; i += 1)
    spans.push({ start: Math.max(start, work.starts[i]), end: Math.min(finish, work.ends[i]) });
  return spans;
}

const meets = (a: Span, b: Span): boolean => a.start < b.end && b.start < a.end;

/** Lags that the start would break by being too early; `until` is the start that they ask for. */
function byLag(located: LocatedPlan, one: Located, start: number, finish: number): Obstacle[] {
  const { problem, at } = located;
  const found: Obstacle[] = [];
  const add = (other: number, lag: number, missing: number): void => {
    if (missing > 0)
      found.push({ from: other, reason: { kind: 'lag', lag }, until: start + missing });
  };
  for (const arc of one.activity.incoming) {
    const other = at[arc.from]?.placement;
    if (!arc.open || !other || !active(located, arc)) continue;
    const bound = anchorBound(problem, arc, arc.fromFinish ? other.finish : other.start);
    if (arc.toFinish) add(arc.from, arc.lag, finish < bound ? one.placement.start - start : 0);
    else add(arc.from, arc.lag, bound - start);
  }
  for (const arc of one.activity.outgoing) {
    const other = at[arc.to]?.placement;
    if (arc.open || !other || !active(located, arc)) continue;
    const least = anchorReaching(problem, arc, arc.toFinish ? other.finish : other.start);
    if (arc.fromFinish) add(arc.to, arc.lag, finish < least ? one.placement.start - start : 0);
    else add(arc.to, arc.lag, least - start);
  }
  return found;
}

function byBuilder({ at }: LocatedPlan, one: Located, spans: readonly Span[]): Obstacle[] {
  const found: Obstacle[] = [];
  for (const { builder } of one.placement.crew)
    for (const other of at) {
      if (!other || other === one || !other.placement.crew.some((c) => c.builder === builder))
        continue;
      // One who is met in several pieces lets go with the last piece before the planned start.
      const met = other.placement.segments.filter(
        (s) => s.end <= one.placement.start && spans.some((x) => meets(x, s)),
      );
      const last = met.at(-1);
      if (last)
        found.push({
          from: other.placement.activity,
          reason: { kind: 'builder', builder },
          until: last.end,
        });
    }
  return found;
}

function byResource(
  { problem, at }: LocatedPlan,
  one: Located,
  spans: readonly Span[],
  whole: Span,
): Obstacle[] {
  const found: Obstacle[] = [];
  for (const use of one.mode.uses) {
    const own = use.whole ? [whole] : spans;
    const others = at.flatMap((other) => {
      if (!other || other === one) return [];
      return other.mode.uses
        .filter((u) => u.resource === use.resource)
        .flatMap((u) =>
          (u.whole
            ? [other.placement]
            : other.placement.segments.map((s) => ({ start: s.start, finish: s.end }))
          ).map((s) => ({
            activity: other.placement.activity,
            start: s.start,
            end: s.finish,
            amount: u.amount,
          })),
        );
    });
    const { steps } = problem.resources[use.resource];
    const capacity = (t: number): number => steps.findLast((step) => step.from <= t)?.capacity ?? 0;
    const changes = [
      ...others.flatMap((o) => [o.start, o.end]),
      ...steps.map((s) => s.from),
      ...own.map((s) => s.start),
    ];
    // The last minute before the planned start at which the resource is short.
    for (const t of new Set(changes.toSorted((x, y) => y - x))) {
      if (t >= one.placement.start || !own.some((s) => s.start <= t && t < s.end)) continue;
      const users = others.filter((o) => o.start <= t && t < o.end);
      if (users.reduce((sum, o) => sum + o.amount, use.amount) <= capacity(t)) continue;
      const first = users.toSorted((x, y) => x.end - y.end || x.activity - y.activity).at(0);
      const reason: LinkReason = { kind: 'resource', resource: use.resource };
      const until = first ? first.end : (steps.find((s) => s.from > t)?.from ?? t);
      found.push({
        from: first ? first.activity : null,
        reason,
        until: Math.min(until, one.placement.start),
      });
      break;
    }
  }
  return found;
}

function byAir(
  located: LocatedPlan,
  one: Located,
  start: number,
  finish: number,
  spans: readonly Span[],
): Obstacle[] {
  const found: Obstacle[] = [];
  const own = one.mode.sensitive
    ? { start, end: openUntil(located.problem, one.activity.surfaces, finish) }
    : null;
  for (const other of located.at) {
    if (!other || other === one) continue;
    const from = other.placement.activity;
    if (reaches(located, one, other)) {
      const settling = settlingOf(located, one);
      const exposure = exposureOf(located, other);
      if (
        exposure &&
        exposure.end <= one.placement.start &&
        spans.some((s) => meets({ start: s.start, end: s.end + settling }, exposure))
      )
        found.push({ from, reason: { kind: 'air', space: other.mode.space }, until: exposure.end });
    }
    if (own && reaches(located, other, one)) {
      const settling = settlingOf(located, other);
      const last = other.placement.segments
        .map((s) => ({ start: s.start, end: s.end + settling }))
        .filter((s) => s.end <= one.placement.start && meets(s, own))
        .at(-1);
      if (last)
        found.push({ from, reason: { kind: 'air', space: one.mode.space }, until: last.end });
    }
  }
  return found;
}

/** What the activity would run into if it started at `start`, an earlier minute that its calendar permits. */
export function obstaclesAt(located: LocatedPlan, one: Located, start: number): Obstacle[] {
  const { mode, table, option, minutes } = one;
  const shared = option !== null && mode.relieved && !mode.pauses ? option.relieved : table;
  calendarStart(mode, shared, minutes, start, located.compiled.horizon, fit);
  const { finish } = fit;
  const spans = spansFrom(one, start, finish);
  const whole = { start, end: finish };
  return [
    ...byLag(located, one, start, finish),
    ...byBuilder(located, one, spans),
    ...byResource(located, one, spans, whole),
    ...byAir(located, one, start, finish, spans),
  ].filter((o) => o.until > start);
}
