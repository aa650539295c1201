import type { Random } from '#kernel/random.ts';
import type { CapacityStep, Resource } from '../model/problem.ts';
import { between, chance, range } from './draw.ts';
import type { Sketch } from './sketch.ts';
import type { World } from './world.ts';

/** Use of one resource by minute, counted out. */
function useOf(world: World, sketches: readonly Sketch[], resource: number): Int32Array {
  const use = new Int32Array(world.horizon);
  for (const { modes, mode, slot } of sketches) {
    if (!slot) continue;
    for (const demand of modes[mode].demands) {
      if (demand.resource !== resource) continue;
      const spans = demand.keptWhilePaused
        ? [{ start: slot.start, end: slot.finish }]
        : slot.segments;
      for (const { start, end } of spans)
        for (let minute = start; minute < end; minute++) use[minute] += demand.amount;
    }
  }
  return use;
}

/** Capacities that the sketches just fit into, or nearly. */
export function supply(
  rng: Random,
  world: World,
  sketches: readonly Sketch[],
  count: number,
): Resource[] {
  return range(count).map((resource) => {
    const use = useOf(world, sketches, resource);
    const cuts = new Set([0, ...range(rng.below(3)).map(() => rng.below(world.horizon))]);
    const from = [...cuts].sort((a, b) => a - b);
    const steps: CapacityStep[] = from.map((start, i) => {
      const peak = use
        .subarray(start, from[i + 1] ?? world.horizon)
        .reduce((a, b) => Math.max(a, b), 0);
      return { from: start, capacity: peak + (chance(rng, 0.5) ? 0 : between(rng, 1, 2)) };
    });
    // Every mode could be used at some time.
    const asked = sketches.flatMap(({ modes }) =>
      modes.flatMap((mode) =>
        mode.demands.filter((demand) => demand.resource === resource).map(({ amount }) => amount),
      ),
    );
    const most = Math.max(0, ...asked);
    const last = steps.length - 1;
    steps[last] = { ...steps[last], capacity: Math.max(steps[last].capacity, most) };
    return { id: `tool-${resource}`, steps, source: `shelf-${resource}` };
  });
}
