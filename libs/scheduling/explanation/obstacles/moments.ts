import { fitsFrom, outside, startFor } from '../../bounds/solo.ts';
import type { Obstacle } from '../../model/plan.ts';
import type { Constraint } from '../../model/constraint.ts';
import type { Interval } from '../../model/problem.ts';
import { nextInside, spansOf, type Spans } from '../../search/crew/compiled/spans.ts';
import type { Keeper } from '../keepers.ts';
import type { Located } from '../located.ts';
import type { Rule } from './obstacle.ts';

const alone = (reason: Constraint, until: number): Obstacle => ({ from: null, reason, until });

/** Frozen or set work is where it was put. */
export const placed: Rule = (_, { placement, activity, frozen, shape }) => {
  const { fixed } = activity;
  const elsewhere =
    frozen ||
    (fixed?.start !== null && fixed?.start !== undefined && fixed.start !== shape.start) ||
    (fixed?.finish !== null && fixed?.finish !== undefined && fixed.finish !== shape.end);
  if (!elsewhere) return [];
  return [alone({ kind: 'fixed', activity: placement.activity }, placement.start)];
};

export const beginning: Rule = (_, { shape, frozen }) =>
  shape.start < 0 && !frozen ? [alone({ kind: 'horizon' }, 0)] : [];

export const releases: Rule = (_, { placement, activity, shape, frozen }) =>
  activity.releases.flatMap(({ at }, release) =>
    at > shape.start && !frozen
      ? [alone({ kind: 'release', activity: placement.activity, release }, at)]
      : [],
  );

const holesOf = (spans: readonly Interval[], horizon: number): Spans =>
  spansOf(
    spans.flatMap((s) => [s.start, s.end]),
    horizon,
  );

export const forbidden: Rule = ({ problem }, { placement, mode, shape, solo, frozen }) =>
  mode.forbidden.flatMap(({ anchor, spans }, index) => {
    const holes = holesOf(spans, problem.horizon);
    const at = anchor === 'start' ? shape.start : shape.end;
    const end = outside(holes, at);
    if (end === at || frozen) return [];
    const until = anchor === 'start' ? end : startFor(solo.pausing, solo.minutes, end);
    const { activity, mode: m } = placement;
    return [alone({ kind: 'forbidden', activity, mode: m, forbidden: index }, until)];
  });

/** It keeps the slot that it has. */
export const slots: Rule = (_, { mode, solo, shape }) => {
  const slot = solo.slots?.[0];
  if (mode.slots === null || slot === undefined || shape.start >= slot.start) return [];
  return [alone({ kind: 'slots', slotList: mode.slots }, slot.start)];
};

const within = ({ count, starts, ends }: Spans, start: number, end: number): boolean => {
  for (let i = 0; i < count && starts[i] <= start; i += 1) if (end <= ends[i]) return true;
  return false;
};

/** Whether the work lies in somebody's hours; of no minutes in a machine's, wherever it is. */
function keeps({ reason, spans }: Keeper, { shape, mode }: Located): boolean {
  if (mode.splittable) return shape.segments.every((s) => within(spans, s.start, s.end));
  if (reason.kind === 'hours' && shape.start === shape.freed) return true;
  return within(spans, shape.start, shape.freed);
}

export const hours: Rule = (_, one) =>
  one.keepers.flatMap((keeper) => {
    if (keeps(keeper, one)) return [];
    const { start, freed } = one.shape;
    const next = one.mode.splittable
      ? nextInside(keeper.spans, start)
      : fitsFrom(keeper.spans, start, freed - start);
    return [alone(keeper.reason, next < 0 ? one.placement.start : next)];
  });
