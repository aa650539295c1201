import type { Random } from '#kernel/random.ts';
import type {
  HoldEnd,
  Interval,
  Mode,
  Problem,
  Resource,
  ResourceDemand,
} from '../../model/problem.ts';
import { pick } from '../draw.ts';
import type { Planted } from '../planted.ts';
import {
  any,
  changingMode,
  freedAt,
  modeOf,
  placing,
  sliding,
  touching,
  wayBeside,
  type Mutation,
} from './edit.ts';

const tool = (steps: Resource['steps']): Resource => ({
  id: 'tight',
  steps,
  calendar: null,
  source: 'tight',
});

/** The problem with one resource more, a single tool. */
const supplied = (
  problem: Problem,
  steps: Resource['steps'] = [{ from: 0, capacity: 1 }],
): Problem => ({
  ...problem,
  resources: [...problem.resources, tool(steps)],
});

/**
 * A single tool that some work has, held while paused or not and cleaned with, and that a probe
 * has right before, after or in a pause of it; or that ends with the probe. Then the probe moves
 * over by one minute.
 */
export const resource: Mutation = (source, rng) => {
  const { problem, plan } = source;
  const placement = any(
    rng,
    plan.placements.filter((one) => one.segments.length > 0),
  );
  if (!placement) return null;
  const { splittable } = modeOf(problem, placement);
  const keptWhilePaused = splittable && rng.below(2) === 0;
  const one: ResourceDemand = { resource: problem.resources.length, amount: 1, keptWhilePaused };
  const probe = { mode: { demands: [one] } };
  const freed = freedAt(problem, placement);
  const whole: Interval = { start: placement.start, end: freed };
  const span = splittable && !keptWhilePaused ? (any(rng, placement.segments) ?? whole) : whole;
  if (rng.below(3) === 0) {
    const { end } = span;
    const start = Math.max(0, end - 1 - rng.below(15));
    const steps = [
      { from: 0, capacity: 1 },
      { from: end, capacity: 0 },
    ];
    if (end < 1) return null;
    return sliding({ ...source, problem: supplied(problem, steps) }, { start, end }, 1, probe);
  }
  const tooled = supplied(
    changingMode(problem, placement, (mode) => ({ ...mode, demands: [...mode.demands, one] })),
  );
  const { span: at, step } = touching(rng, span);
  return sliding({ problem: tooled, plan }, at, step, probe);
};

/** An end of a hold that falls on a moment at or after the finish of its activity. */
function holdEnd(rng: Random, { plan }: Planted, finish: number): { end: HoldEnd; at: number } {
  const anchor = pick(rng, ['start', 'finish'] as const);
  const later = any(
    rng,
    plan.placements.filter((one) => one[anchor] > finish),
  );
  if (later && rng.below(2) === 0)
    return { end: { kind: 'activity', activity: later.activity, anchor }, at: later[anchor] };
  const minutes = rng.below(200);
  return {
    end: { kind: 'lag', fns: [{ kind: 'constant', minutes }] },
    at: finish + minutes,
  };
}

/** A mould that work holds until a moment, from which a probe has it; then a minute too early. */
export const hold: Mutation = (source, rng) => {
  const { problem, plan } = source;
  const placement = any(rng, plan.placements);
  if (!placement) return null;
  const { activity, start, finish } = placement;
  const ends = Array.from({ length: 1 + rng.below(2) }, () => holdEnd(rng, source, finish));
  const at = Math.max(finish, ...ends.map((one) => one.at));
  if (at <= start) return null;
  const resource = problem.resources.length;
  const held: Problem = {
    ...supplied(problem),
    holds: [
      ...problem.holds,
      {
        id: 'tight',
        activity,
        resource,
        amount: 1,
        ends: ends.map(({ end }) => end),
        source: 'tight',
      },
    ],
  };
  const { span, step } = touching(rng, { start, end: at });
  const demand = { resource, amount: 1, keptWhilePaused: false };
  return sliding({ problem: held, plan }, span, step, { mode: { demands: [demand] } });
};

/** A drum that is just enough for two, and one of them done in a way that takes one more from it. */
export const stock: Mutation = (source, rng) => {
  const { problem, plan } = source;
  const placement = any(rng, plan.placements);
  const other = any(
    rng,
    plan.placements.filter((one) => one !== placement),
  );
  if (!placement || !other) return null;
  const index = problem.stocks.length;
  const amount = 1 + rng.below(9);
  const rest = 1 + rng.below(9);
  const using = (mode: Mode, own: number): Mode => ({
    ...mode,
    consumes: [...mode.consumes, { stock: index, amount: own }],
  });
  const shared = changingMode(problem, other, (mode) => using(mode, rest));
  const own = modeOf(problem, placement);
  const tight: Problem = {
    ...wayBeside(
      changingMode(shared, placement, (mode) => using(mode, amount)),
      placement,
      using(own, amount + 1),
    ),
    stocks: [...problem.stocks, { id: 'tight', total: amount + rest, source: 'tight' }],
  };
  const before = { problem: tight, plan };
  const last = problem.activities[placement.activity].modes.length;
  return { before, after: placing(before, { ...placement, mode: last }) };
};
