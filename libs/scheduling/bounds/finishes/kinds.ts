import type { Problem } from '../../model/problem.ts';
import type { Spans } from '../../search/crew/compiled/spans.ts';
import type { FreeTime } from '../crew-hours/capacity.ts';
import { indexed, union, type Flat } from '../hours.ts';
import type { Kind } from './pieces.ts';

/** Time as a list. */
export const listOf = ({ count, starts, ends }: Spans): number[] => {
  const flat: number[] = [];
  for (let i = 0; i < count; i += 1) flat.push(starts[i], ends[i]);
  return flat;
};

/** When anybody can work on each kind. */
export function spansOfKinds(
  problem: Problem,
  free: readonly FreeTime[],
  kinds: readonly Kind[],
): Spans[] {
  const timeOf = (b: number, relieved: boolean): Flat =>
    relieved ? union(listOf(free[b].work), listOf(free[b].breaks)) : listOf(free[b].work);
  return kinds.map(({ builders, relieved }) =>
    indexed(
      problem,
      builders.reduce<Flat>((sum, b) => union(sum, timeOf(b, relieved)), []),
    ),
  );
}
