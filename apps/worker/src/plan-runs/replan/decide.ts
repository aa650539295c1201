import type { Difference } from '#live/difference/difference.ts';
import { isWorthOffering } from '#live/disturbance/offer.ts';
import type { Plan } from '#scheduling/model/plan.ts';
import { incumbent } from '#scheduling/search/incumbent.ts';

export interface Found {
  readonly plan: Plan;
  /** The tolerances of its problem. */
  readonly tolerances: readonly number[];
  readonly difference: Difference;
}

export interface Situation {
  /** The published plan, if it can be worked to as it is. */
  readonly base: Plan | null;
  /** What is offered, if there is something, and if it can be worked to as it is. */
  readonly open: { readonly standing: Plan | null } | null;
  /** The foreman asked for it. */
  readonly asked: boolean;
}

export type Decision =
  { readonly kind: 'offer' } | { readonly kind: 'leave' | 'withdraw'; readonly why: string };

/** As the engine sees it: the later ranks count within the tolerances of the earlier. */
function isBetter(one: Plan, than: Plan, tolerances: readonly number[]): boolean {
  const best = incumbent(tolerances);
  best.offer(than.values, () => than);
  best.offer(one.values, () => one);
  return best.plan === one;
}

/** What becomes of a plan that was found for what happened. */
export function decide(
  { plan, tolerances, difference }: Found,
  { base, open, asked }: Situation,
): Decision {
  if (open !== null && open.standing !== null) {
    return difference.moved > 0 && isBetter(plan, open.standing, tolerances)
      ? { kind: 'offer' }
      : { kind: 'leave', why: 'The candidate plan still stands, and nothing better was found.' };
  }
  if (isWorthOffering(difference, { stands: base !== null, asked })) return { kind: 'offer' };
  const why =
    difference.moved === 0
      ? 'The published plan still stands: nobody has to be told anything new.'
      : 'The published plan still stands, and nothing was found that is worth a change.';
  return { kind: open === null ? 'leave' : 'withdraw', why };
}
