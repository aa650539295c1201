import type { Interval, Resource, ResourceDemand } from '../../model/problem.ts';
import type { Planted } from '../planted.ts';
import { any, changingMode, probed, type Mutation } from './edit.ts';

/** Everything with one resource more. */
const supplied = ({ problem, plan }: Planted, steps: Resource['steps']): Planted => ({
  problem: {
    ...problem,
    resources: [...problem.resources, { id: 'tight', steps, source: 'tight' }],
  },
  plan,
});

/**
 * A single tool that some work has, held while paused or not, and that a probe has right
 * before, after or in a pause of it; or that ends with the probe. Then the probe moves
 * over by one minute.
 */
export const resource: Mutation = (source, rng) => {
  const { problem } = source;
  const placement = any(
    rng,
    source.plan.placements.filter((one) => one.segments.length > 0),
  );
  if (!placement) return null;
  const index = problem.resources.length;
  const keptWhilePaused = rng.below(2) === 0;
  const one: ResourceDemand = { resource: index, amount: 1, keptWhilePaused };
  const whole = { start: placement.start, end: placement.finish };
  const span = keptWhilePaused ? whole : (any(rng, placement.segments) ?? whole);
  const minutes = 1 + rng.below(15);
  const way = rng.below(3);
  const probe = (tooled: Planted, at: Interval): Planted =>
    probed(tooled, at, { mode: { demands: [one] } });
  if (way === 2) {
    const end = span.end;
    const start = Math.max(0, end - minutes);
    if (end >= problem.horizon) return null;
    const steps = [
      { from: 0, capacity: 1 },
      { from: end, capacity: 0 },
    ];
    const tooled = supplied(source, steps);
    return {
      before: probe(tooled, { start, end }),
      after: probe(tooled, { start: start + 1, end: end + 1 }),
    };
  }
  const tooled = supplied(
    {
      ...source,
      problem: changingMode(problem, placement, (mode) => ({
        ...mode,
        demands: [...mode.demands, one],
      })),
    },
    [{ from: 0, capacity: 1 }],
  );
  const start = way === 0 ? span.end : span.start - minutes;
  const step = way === 0 ? -1 : 1;
  const end = start + minutes;
  if (start < 0 || end > problem.horizon) return null;
  return {
    before: probe(tooled, { start, end }),
    after: probe(tooled, { start: start + step, end: end + step }),
  };
};
