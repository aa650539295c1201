import type { Rule } from '#access/rule.ts';
import { isRead, type Operation } from '../requests/operations.ts';

interface Ruled {
  readonly operation: Operation;
  readonly rule: Rule;
}

/**
 * How a call is made: `plain`, with no more than it needs and by somebody who may; `by chance`,
 * mostly as it is meant; `spoiled`, so that it cannot be done.
 */
export type Manner = 'plain' | 'by chance' | 'spoiled';

export interface Turn extends Ruled {
  readonly manner: Manner;
}

/** Asks the solver again and again, for a second or more. */
const slowest = /shortens/i;

/** Reads of what comes with the service, the quickest there are. */
const lightest = /catalogue|health|bond|materialClass$/i;

/** Reads of one small record or of a short list: five milliseconds, where a plan takes a hundred. */
const light =
  /(skill|fabric|stock|tool|slot-?list|barrier|reading|observation|deliver|passkey|session|access-?setting)[^/]*(\/\{id\})?$/i;

/**
 * Which operation is asked when: each once plainly and six times by chance; for the rest what is quickly
 * answered, since it is by number that a rare fault is met: light reads, and three times in ten a change
 * that is spoiled and so never done. In turns, so that no kind of work comes all at once.
 */
export function turnsOf(operations: readonly Ruled[], count: number): Turn[] {
  const again = operations.filter(({ operation: { face } }) => !slowest.test(face));
  const all: Turn[] = [
    ...operations.map((ruled) => ({ ...ruled, manner: 'plain' as const })),
    ...Array.from({ length: 6 }, () => again)
      .flat()
      .map((ruled) => ({ ...ruled, manner: 'by chance' as const })),
  ];
  const readsLike = (pattern: RegExp): Ruled[] =>
    operations.filter(
      ({ operation: { face, kind } }) =>
        kind !== 'subscription' && isRead(face) && pattern.test(face),
    );
  const rest = [
    { of: readsLike(lightest), manner: 'by chance' as const },
    {
      of: operations.filter(({ operation: { face } }) => !isRead(face)),
      manner: 'spoiled' as const,
    },
    { of: readsLike(light), manner: 'by chance' as const },
  ];
  const order = [0, 1, 0, 1, 0, 0, 1, 0, 1, 2];
  const taken = rest.map(() => 0);
  const share = all.length / count;
  return Array.from({ length: count }, (_, k) => {
    const before = Math.floor(k * share);
    // Each turn of all where the share comes to a whole one.
    if (Math.floor((k + 1) * share) > before) return all[before];
    const n = k - before;
    const which = order[n % order.length];
    const { of, manner } = rest[which];
    const at = taken[which]++;
    return { ...of[at % of.length], manner };
  });
}
