import { random } from '#kernel/random.ts';
import type { Problem } from '../../../model/problem.ts';
import { mode } from '../../../testing/make.ts';
import { drawPure } from '../../exact/testing/tiny.ts';

/** What a drawn project is like; `most` of a resource, `longest` duration. */
export interface ProjectSize {
  readonly count: number;
  readonly resources: number;
  readonly most: number;
  readonly longest: number;
}

/** A random project from a seed: finish-to-start precedence and capacities, nothing else. */
export function drawProject(seed: number, size: ProjectSize): Problem {
  const rng = random(seed);
  const base = drawPure(seed);
  const capacity = Array.from({ length: size.resources }, () =>
    Math.max(1, size.most - rng.below(Math.ceil(size.most / 2))),
  );
  const activities = Array.from({ length: size.count }, (_, i) => ({
    ...base.activities[0],
    id: `A${i}`,
    refit: 0,
    releases: [],
    modes: [
      mode({
        duration: rng.below(8) === 0 ? 0 : 1 + rng.below(size.longest),
        demands: capacity.map((most, resource) => ({
          resource,
          amount: rng.below(3) === 0 ? 0 : rng.below(most + 1),
          keptWhilePaused: false,
        })),
      }),
    ],
  }));
  const lags = Array.from({ length: size.count }, (_, k) => {
    const from = rng.below(size.count - 1);
    return {
      id: `L${k}`,
      from,
      fromAnchor: 'finish' as const,
      to: from + 1 + rng.below(Math.min(8, size.count - 1 - from)),
      toAnchor: 'start' as const,
      bound: 'open' as const,
      fns: [{ kind: 'constant' as const, minutes: 0 }],
      kind: 'sequence' as const,
      source: `L${k}`,
    };
  });
  return {
    ...base,
    horizon: size.count * size.longest,
    resources: capacity.map((amount, r) => ({
      ...base.resources[0],
      id: `R${r}`,
      steps: [{ from: 0, capacity: amount }],
    })),
    activities,
    lags,
  };
}
