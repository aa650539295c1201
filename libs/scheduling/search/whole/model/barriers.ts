import { shift } from '../rules/monotone.ts';
import type { Use } from '../rules/occupancy.ts';
import { variableOf, type Condition } from './draft.ts';
import { doneIn } from './located.ts';
import type { Orders } from './orders.ts';
import type { Ground } from './ground.ts';
import type { Work } from './works.ts';

/** Acts on a barrier: that one is done, and that it closes it. */
interface Act {
  readonly work: Work;
  readonly done: Condition;
  readonly opens: Condition | false;
}

function actsOn(ground: Ground, barrier: number, works: readonly Work[]): Act[] {
  const { activities } = ground.problem;
  return works.flatMap((work): Act[] => {
    const { modes } = activities[work.activity];
    const acting = work.ways.filter(({ mode }) => modes[mode].barrier?.barrier === barrier);
    const unclosing = acting.filter(({ mode }) => modes[mode].barrier?.closes === false);
    if (acting.length === 0) return [];
    const opens = unclosing.length === 0 ? false : doneIn(ground, work, unclosing);
    return [{ work, done: doneIn(ground, work, acting), opens }];
  });
}

/**
 * When a barrier is not closed, as uses of one unit: during every act, and from an opening one (or
 * from the beginning, if it is open then) until the next act's start.
 */
export function openings(
  ground: Ground,
  barrier: number,
  works: readonly Work[],
  orders: Orders,
): Use[] {
  const { problem, draft } = ground;
  const acts = actsOn(ground, barrier, works);
  const never = draft.variable(draft.absent, draft.absent);
  const untilNext = (after: Work | null): number => {
    const next = acts.flatMap(({ work, done }) => {
      if (work === after) return [];
      const order = after === null ? null : orders.before(after, work);
      return order === false ? [] : [{ work, done, order }];
    });
    if (next.length === 0) return never;
    const end = draft.variable(-draft.absent, draft.absent);
    const stays = draft.boolean();
    draft.link(never, end, shift(0), stays);
    const chosen = next.map(({ work, done, order }) => {
      const first = draft.boolean();
      draft.link(work.start, end, shift(0), first);
      draft.implies([first], done);
      draft.implies([first], order);
      return first;
    });
    draft.clause(stays, ...chosen);
    return end;
  };
  const base = { tail: 0, amount: 1, hours: null };
  const uses: Use[] = [];
  if (!problem.barriers[barrier].closed) {
    const start = draft.variable(-draft.absent, -draft.absent);
    uses.push({ ...base, start, finish: untilNext(null), times: null });
  }
  for (const { work, done, opens } of acts) {
    const { start, finish } = work;
    uses.push({ ...base, start, finish, times: asTimes(ground, done) });
    if (opens === false) continue;
    const still = { ...base, start: finish, finish: untilNext(work) };
    uses.push({ ...still, times: asTimes(ground, opens) });
  }
  return uses;
}

/** A variable that is 1 where the literal holds; null where it always does. */
export function asTimes({ draft }: Ground, literal: Condition): number | null {
  if (literal === null) return null;
  if ((literal.b & 1) === 0 && literal.v === 1) return variableOf(literal);
  const one = draft.boolean();
  draft.implies([literal], one);
  return variableOf(one);
}
