import type { Analysis } from '../../bounds/critical-path.ts';
import { isCertain } from '../../bounds/domains.ts';
import type { Constraint } from '../../model/constraint.ts';
import type { Problem } from '../../model/problem.ts';
import { subjects } from './subject.ts';

/** Sizes of the groups looked at, smaller ones first: what cannot be is mostly about few tasks. */
const SIZES = [4, 8, 16, 32];

/**
 * The activities with the least room to move, in groups that grow. What is done or running has no
 * room and nothing to decide: it counts for no size, and is there where a lag ties a member to it, or
 * where it goes on and takes people and tools from them.
 */
export function tightGroups({ root, assumed, domains }: Analysis): Set<number>[] {
  const { activities, lags, now } = root.problem;
  const isFrozen = (a: number): boolean => activities[a].fixed?.kind === 'frozen';
  const room = (a: number): number => domains.startTo[a] - domains.startFrom[a];
  const order = [...activities.keys()].filter((a) => !isFrozen(a) && isCertain(root, assumed, a));
  const goesOn = [...activities.keys()].filter(
    (a) => isFrozen(a) && (activities[a].fixed?.finish ?? Infinity) > now,
  );
  order.sort((a, b) => room(a) - room(b) || a - b);
  return SIZES.filter((size, k) => k === 0 || order.length > SIZES[k - 1]).map((size) => {
    const members = new Set(order.slice(0, size));
    const ties = lags.filter(({ from, to }) => isFrozen(from) && members.has(to));
    return new Set([...members, ...goesOn, ...ties.map(({ from }) => from)]);
  });
}

const NONE: ReadonlySet<number> = new Set();

/**
 * The constraints that go on holding where only the activities of the group are there: those of what is
 * shared, of which the others then take nothing, and those about nobody else. Other activities may
 * help one that covers a film or brings a part to its place, so what is about them too is left out.
 */
export const within = (
  problem: Problem,
  all: readonly Constraint[],
  group: ReadonlySet<number>,
): Constraint[] =>
  all.filter((one) => {
    switch (one.kind) {
      case 'builder':
      case 'calendar':
      case 'resource':
      case 'hours':
      case 'stock':
      case 'slots':
        return true;
      default:
        return subjects(problem, one, NONE).every((a) => group.has(a));
    }
  });
