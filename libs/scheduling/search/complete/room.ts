import type { Candidate } from './candidates.ts';
import { alike } from './alike.ts';
import type { Tools } from './dive.ts';
import { fullDomains, measure, type Domains } from './domains.ts';
import { joint } from './joint.ts';
import { pairs } from './pairs.ts';
import { propagation } from './propagate.ts';
import { sharedOf } from './shared.ts';
import { supply } from './supply.ts';
import { worldOf } from './world.ts';
import { worth, type Worth } from './worth.ts';
import type { Problem } from '../../model/problem.ts';

/** One way to make all choices, with everything that the search needs to look through it. */
export interface Room extends Tools {
  readonly values: Worth;
  /** Everything that propagation left at the start; null where there is no plan. */
  readonly root: Domains | null;
}

export const NO_LIMITS = new Float64Array(4).fill(Infinity);

export function roomOf(
  problem: Problem,
  all: readonly (readonly Candidate[])[],
  branches: readonly number[],
): Room {
  const world = worldOf(problem, all, branches);
  const shared = sharedOf(world);
  const row = pairs(world, shared);
  const resources = supply(world, shared);
  const rules = joint(world, shared, resources);
  const values = worth(world);
  const propagator = propagation(world, shared, row, resources, values);
  const root = fullDomains(world);
  const possible =
    world.domains.every((_, k) => measure(world, root, k)) && propagator.settle(root, NO_LIMITS);
  return {
    world,
    shared,
    row,
    rules,
    propagation: propagator,
    alike: alike(world),
    values,
    root: possible ? root : null,
  };
}
