import { functionFor, opensAt } from '../../model/lag.ts';
import type { Obstacle } from '../../model/plan.ts';
import type { Hold, Interval } from '../../model/problem.ts';
import { anchorAt } from './lags.ts';
import { meets, taken, type Located, type LocatedPlan } from '../located.ts';
import type { Rule } from './obstacle.ts';

interface Use extends Interval {
  readonly activity: number;
  readonly amount: number;
  /** Null for a demand. */
  readonly hold: number | null;
}

/** From when to when a hold lasts; null where its holder is absent. */
export function heldFor({ problem, at }: LocatedPlan, { activity, ends }: Hold): Interval | null {
  const holder = at[activity];
  if (!holder) return null;
  const moments = ends.flatMap((end): number[] => {
    if (end.kind === 'lag')
      return [opensAt(problem, functionFor(end.fns, holder.placement.mode), holder.shape.end)];
    const other = at[end.activity];
    return other ? [anchorAt(other, end.anchor)] : [];
  });
  return { start: holder.shape.start, end: Math.max(holder.shape.end, ...moments) };
}

/** When an activity itself uses a resource, holds apart. */
function demandsOf(one: Located, resource: number): Use[] {
  const { activity } = one.placement;
  const uses: Use[] = [];
  for (const demand of one.mode.demands) {
    if (demand.resource !== resource || demand.amount === 0) continue;
    const { amount } = demand;
    if (demand.keptWhilePaused)
      uses.push({ start: one.shape.start, end: one.shape.freed, amount, activity, hold: null });
    else
      for (const { start, end } of taken(one))
        uses.push({ start, end, amount, activity, hold: null });
  }
  return uses;
}

function holdOf(located: LocatedPlan, h: number): Use[] {
  const hold = located.problem.holds[h];
  const span = hold.amount > 0 ? heldFor(located, hold) : null;
  return span ? [{ ...span, amount: hold.amount, activity: hold.activity, hold: h }] : [];
}

/** Uses of a resource that meet the activity's own, which are among them. */
function usesBeside(located: LocatedPlan, one: Located, resource: number): Use[] {
  const { sharing, at } = located;
  const a = one.placement.activity;
  const held = sharing.holds[resource].flatMap((h) => holdOf(located, h));
  const own = [...demandsOf(one, resource), ...held.filter(({ activity }) => activity === a)];
  const lasting = own.filter(({ start, end }) => start < end);
  const from = lasting.reduce((least, { start }) => Math.min(least, start), Infinity);
  const to = lasting.reduce((most, { end }) => Math.max(most, end), -Infinity);
  const demanded: Use[] = [];
  for (const b of sharing.resources[resource]) {
    const other = at[b];
    if (other && other.shape.start < to && from < other.shape.freed)
      demanded.push(...demandsOf(other, resource));
  }
  return [...demanded, ...held].filter(
    (use) => use.start < use.end && lasting.some((mine) => meets(mine, use)),
  );
}

/** Resources that an activity takes some of, by demand or hold. */
const touched = ({ problem, sharing }: LocatedPlan, one: Located): Set<number> =>
  new Set([
    ...one.mode.demands.map(({ resource }) => resource),
    ...sharing.held[one.placement.activity].map((h) => problem.holds[h].resource),
  ]);

/**
 * Resources that would be short. A hold is to blame where everything would fit without that one;
 * `from` is the first of the others to let go. Of several shortages the last before the planned
 * start counts.
 */
export const supplies: Rule = (located, one) => {
  const found: Obstacle[] = [];
  const { activity: a, start: planned } = one.placement;
  for (const resource of touched(located, one)) {
    const near = usesBeside(located, one, resource);
    const own = near.filter(({ activity }) => activity === a);
    const { steps } = located.problem.resources[resource];
    const moments = [...near.map(({ start }) => start), ...steps.map(({ from }) => from)];
    for (const t of [...new Set(moments)].sort((x, y) => y - x)) {
      if (t < 0 || (t >= planned && planned > one.shape.start)) continue;
      if (!own.some(({ start, end }) => start <= t && t < end)) continue;
      const then = near.filter(({ start, end }) => start <= t && t < end);
      const capacity = steps.findLast(({ from }) => from <= t)?.capacity ?? 0;
      const used = then.reduce((sum, { amount }) => sum + amount, 0);
      if (used <= capacity) continue;
      const hold = then.find((use) => use.hold !== null && used - use.amount <= capacity);
      const others = then
        .filter(({ activity }) => activity !== a)
        .sort((x, y) => x.end - y.end || x.activity - y.activity);
      const blamed = hold && hold.activity !== a ? hold : others.at(0);
      found.push({
        from: blamed?.activity ?? null,
        reason:
          hold?.hold === null || hold === undefined
            ? { kind: 'resource', resource }
            : { kind: 'hold', hold: hold.hold },
        until: blamed?.end ?? steps.find(({ from }) => from > t)?.from ?? planned,
      });
      break;
    }
  }
  return found;
};
