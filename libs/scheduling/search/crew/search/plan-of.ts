import type { Placement, Plan } from '../../../model/plan.ts';
import type { Compiled } from '../compiled/compiled.ts';
import { crewOf, segmentsOf } from '../state/state.ts';
import { valuesOf, type Placed, type Worth } from './worth.ts';

function placementOf({ compiled, state }: Placed, a: number): Placement {
  const { frozen } = compiled.activities[a];
  const flat = segmentsOf(compiled, state, a);
  const segments = [];
  for (let i = 0; i < flat.length; i += 2) segments.push({ start: flat[i], end: flat[i + 1] });
  const option = crewOf(compiled, state, a);
  const mode = state.mode[a];
  return {
    activity: a,
    mode,
    start: state.start[a],
    finish: state.finish[a],
    segments,
    crew: frozen
      ? frozenCrew(compiled, a, frozen.builders)
      : (option?.builders ?? []).map((builder, i) => ({
          builder,
          demand: option?.demands[i] ?? 0,
        })),
    overtime: option?.overtime ?? false,
    slot: state.slot[a] >= 0 && frozen === null ? state.slot[a] : null,
  };
}

/** Frozen work lists who did it; each is booked on the first demand that still lacks somebody. */
function frozenCrew(
  compiled: Compiled,
  a: number,
  builders: readonly number[],
): { builder: number; demand: number }[] {
  const { problem, activities } = compiled;
  const { crew } = problem.activities[a].modes[activities[a].frozen?.mode ?? 0];
  const open = crew.map((d) => d.count);
  const has = (builder: number, skill: number): boolean =>
    problem.builders[builder].abilities.some((ability) => ability.skill === skill);
  return builders.map((builder) => {
    const able = crew.findIndex((d, i) => open[i] > 0 && has(builder, d.skill));
    const demand = Math.max(0, able >= 0 ? able : open.findIndex((left) => left > 0));
    if (open.length > 0) open[demand] -= 1;
    return { builder, demand };
  });
}

/** The plan as data. */
export function planOf(
  placed: Placed,
  branches: ArrayLike<number>,
  ends: Float64Array,
  worth: Worth,
): Plan {
  const placements = [];
  for (let a = 0; a < placed.present.length; a += 1)
    if (placed.present[a] === 1) placements.push(placementOf(placed, a));
  return {
    placements,
    branches: Array.from(branches),
    finishes: [...ends],
    values: valuesOf(worth),
  };
}
