import type { Problem } from '../../model/problem.ts';
import { between, chance, range, sample } from '../draw.ts';
import type { Draft } from './draft.ts';

/** One boat or two. */
export function refits(draft: Draft): void {
  const { rng, problem } = draft;
  for (const index of range(between(rng, 1, 2))) {
    const due = draft.wants('due') || draft.wants('handovers');
    const first = between(rng, Math.floor(problem.horizon / 3), problem.horizon - 2);
    const second = between(rng, first + 1, problem.horizon);
    problem.refits.push({
      id: `refit-${index}`,
      release: 0,
      due: due && chance(rng, 0.9) ? between(rng, 5, Math.floor(problem.horizon * 0.7)) : null,
      handovers: draft.wants('handovers') && chance(rng, 0.8) ? [first, second] : [],
      weight: between(rng, 1, 3),
      source: `boat-${index}`,
    });
  }
}

/** What people were told about some of the work. */
export function published(draft: Draft): Problem['published'] {
  const { rng, problem } = draft;
  if (!draft.wants('published')) return null;
  const told = sample(rng, range(problem.activities.length), between(rng, 1, 4));
  return {
    tolerance: between(rng, 0, 3),
    tasks: told.map((activity) => ({
      activity,
      start: between(rng, 0, problem.horizon - 1),
      builders: sample(rng, range(problem.builders.length), between(rng, 0, 2)),
      weight: between(rng, 1, 4),
    })),
  };
}

export function tolerances(draft: Draft): Problem['tolerances'] {
  const { rng } = draft;
  return draft.wants('tolerances')
    ? [between(rng, 0, 3), between(rng, 1, 6), between(rng, 0, 4)]
    : [0, 0, 0];
}
