import type { Random } from '#kernel/random.ts';
import { Literals, lowerOf, upperOf } from '../../../propagation/literal.ts';
import { assignments } from '../../../propagation/testing/meaning.ts';
import { spansOf, type Spans } from '../../crew/compiled/spans.ts';
import type { Use } from '../rules/occupancy.ts';

/** Made-up uses of work that may be absent: starts are variables 0 .. 2, finishes 3 .. 5, others follow. */
export const TASKS = 3;
const HORIZON = 8;

/** Half of the time none. */
export function drawHours(rng: Random): Spans | null {
  if (rng.below(2) === 0) return null;
  const flat: number[] = [];
  for (let t = 0; t < HORIZON; t++) if (rng.below(3) > 0) flat.push(t, t + 1);
  return spansOf(flat, HORIZON);
}

/** Who is absent, which is to begin at `absent` or later, is so from start to finish. */
export const absentThroughout = (uses: readonly Use[], absent: number): Literals[] =>
  uses.map(({ start, finish }) => {
    const clause = new Literals();
    clause.add(upperOf(finish), 1 - absent);
    clause.add(lowerOf(start), absent);
    return clause;
  });

/** Absent from start to finish, or up to `longest` long; what is not so is not listed. */
export function withFinishes(
  domains: readonly (readonly [number, number])[],
  absent: number,
  longest: number,
): number[][] {
  const others = domains.filter((_, x) => x < TASKS || x >= 2 * TASKS);
  const lengths = assignments(Array.from({ length: TASKS }, () => [0, longest] as const));
  return assignments(others).flatMap((values) => {
    const starts = values.slice(0, TASKS);
    return lengths
      .filter((length) =>
        starts.every((start, k) => (start < absent ? start + length[k] < absent : length[k] === 0)),
      )
      .map((length) => [
        ...starts,
        ...starts.map((start, k) => start + length[k]),
        ...values.slice(TASKS),
      ]);
  });
}
