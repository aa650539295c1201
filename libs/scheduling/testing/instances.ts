import fc from 'fast-check';
import type { Plan } from '../model/plan.ts';
import type { Problem } from '../model/problem.ts';
import { plantedProblem, tinyProblem } from './planted.ts';
import { smallProblem } from './small/small.ts';

/** A problem by its maker's name and seed, which is what a failure has to tell. */
export interface Instance {
  readonly maker: 'tiny' | 'planted' | 'small';
  readonly seed: number;
  readonly size: number;
}

export interface Made {
  readonly problem: Problem;
  /** A plan that is feasible for it, where it was made around one. */
  readonly known: Plan | null;
}

export function make({ maker, seed, size }: Instance): Made {
  if (maker === 'small') return { problem: smallProblem(seed), known: null };
  const { problem, plan } =
    maker === 'tiny' ? tinyProblem(seed, size) : plantedProblem(seed, size, { day: 40, days: 4 });
  return { problem, known: plan };
}

const seeds = fc.integer({ min: 1, max: 1_000_000 });

/** At most five activities in 39 minutes, with a plan. */
export const tiny: fc.Arbitrary<Instance> = fc.record({
  maker: fc.constant('tiny'),
  seed: seeds,
  size: fc.integer({ min: 2, max: 5 }),
});

/** Four to nine activities in four short days, with a plan. */
export const planted: fc.Arbitrary<Instance> = fc.record({
  maker: fc.constant('planted'),
  seed: seeds,
  size: fc.integer({ min: 4, max: 9 }),
});

/** Of few activities, with a plan or perhaps without any. */
export const small: fc.Arbitrary<Instance> = fc.record({
  maker: fc.constant('small'),
  seed: seeds,
  size: fc.constant(0),
});

export const any: fc.Arbitrary<Instance> = fc.oneof(tiny, planted, small);
