import { functionFor, opensAt } from '../../../model/lag.ts';
import { latestOpened, earliestReaching } from '../../../model/lag-inverse.ts';
import { closesAt } from '../../../model/lag.ts';
import type { LagFunction, LagFunctions, Problem } from '../../../model/problem.ts';
import { BEYOND, monotone, shift, type Monotone } from '../rules/monotone.ts';
import type { Condition, Draft } from './draft.ts';
import type { Work } from './works.ts';

const wide = (v: number): number => (v === Infinity ? BEYOND : v === -Infinity ? -BEYOND : v);

export const opening = (problem: Problem, fn: LagFunction): Monotone =>
  fn.kind === 'constant'
    ? shift(fn.minutes)
    : monotone(
        (t) => opensAt(problem, fn, t),
        (v) => wide(latestOpened(problem, fn, v)),
      );

/** A closing seen from its far end: the earliest anchor that reaches a moment. */
const closing = (problem: Problem, fn: LagFunction): Monotone =>
  fn.kind === 'constant'
    ? shift(-fn.minutes)
    : monotone(
        (t) => wide(earliestReaching(problem, fn, t)),
        (v) => closesAt(problem, fn, v),
      );

/** For each mode in which the work can be done, its literal and function; one entry where there is one function. */
export function byMode(
  work: Work,
  fns: LagFunctions,
): { readonly when: Condition; readonly fn: LagFunction }[] {
  if (fns.length === 1) return [{ when: null, fn: fns[0] }];
  return work.modes.flatMap((when, m) =>
    when === undefined ? [] : [{ when, fn: functionFor(fns, m) }],
  );
}

/** All lags, with what has to hold for each: its branch, and the work at the end that it is read from. */
export function addLags(
  problem: Problem,
  draft: Draft,
  works: readonly (Work | null)[],
  owner: readonly Condition[],
): void {
  const same = (one: Condition, other: Condition): boolean =>
    one === other || (one !== null && other !== null && one.b === other.b && one.v === other.v);
  problem.lags.forEach((lag, l) => {
    const from = works[lag.from];
    const to = works[lag.to];
    if (from === null || to === null) return;
    const isOpen = lag.bound === 'open';
    const source = isOpen ? from[lag.fromAnchor] : to[lag.toAnchor];
    const target = isOpen ? to[lag.toAnchor] : from[lag.fromAnchor];
    const [needed, free] = isOpen ? [from.present, to.present] : [to.present, from.present];
    for (const { when, fn } of byMode(from, lag.fns)) {
      // A mode's literal says that its work is present; absent work at the target's end meets every bound.
      const present = isOpen && when !== null ? null : needed;
      const conditions = [owner[l], present, when].filter(
        (one) => one !== null && !same(one, free),
      );
      draft.link(
        source,
        target,
        isOpen ? opening(problem, fn) : closing(problem, fn),
        ...joined(draft, conditions),
      );
    }
  });
}

/** At most two conditions: more are made one. */
export function joined(draft: Draft, conditions: readonly Condition[]): Condition[] {
  const own = conditions.filter((one) => one !== null);
  const distinct = own.filter(
    (one, i) => own.findIndex((other) => other.b === one.b && other.v === one.v) === i,
  );
  if (distinct.length <= 2) return distinct;
  const all = draft.boolean();
  draft.implies(distinct.slice(1), all);
  return [distinct[0], all];
}
