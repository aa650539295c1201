import { DomainError } from '#kernel/error.ts';
import { applyEdits, type Edited } from '#live/edits/apply.ts';
import { type Effect, effectOf, effectSchema, sameEffect } from '#live/edits/effect.ts';
import type { WorkEdits } from '#live/edits/edits.ts';
import { readEdits } from '#live/edits/read-edits.ts';
import type { Proposal as ProposalRow } from '#persistence/generated/client.ts';
import { loadForEdits } from '#persistence/live/edits.ts';
import { lastChangeOfWork } from '#persistence/live/scope.ts';
import type { Tx } from '../../platform/database/database.ts';

/** What edits do to the work as it is. Throws as `applyEdits` does. */
export function effectIn({ yard, workload }: Edited, edits: WorkEdits): Effect {
  return effectOf(workload, applyEdits(yard, workload, edits).workload);
}

/** Edits that cannot be made any more are as stale as those that would do something else. */
function whyOther(now: Edited, { edits, effect }: Pick<ProposalRow, 'edits' | 'effect'>) {
  const told = effectSchema.safeParse(effect);
  try {
    if (told.success && sameEffect(told.data, effectIn(now, readEdits(edits)))) return null;
  } catch (error) {
    if (!(error instanceof DomainError)) throw error;
    return `It cannot be done so any more: ${error.message}`;
  }
  return 'Work that it is about has begun or changed since it was priced.';
}

/**
 * Of proposals that wait for a yes, why nobody can say it any more, by id: the work is not what they were
 * priced with. Those that still hold are left out. The caller's transaction sees the whole yard.
 */
export async function staleOf(
  tx: Tx,
  yardId: string,
  rows: readonly Pick<ProposalRow, 'id' | 'readEventId' | 'edits' | 'effect'>[],
): Promise<ReadonlyMap<string, string>> {
  const stale = new Map<string, string>();
  if (rows.length === 0) return stale;
  const since = rows.map(({ readEventId }) => readEventId).reduce((a, b) => (a < b ? a : b));
  const last = await lastChangeOfWork(tx, yardId, since);
  const left = rows.filter(({ id, readEventId }) => {
    if (last === null || readEventId >= last) return true;
    stale.set(
      id,
      'Work was added, changed or dropped in the yard, or a refit changed, since this was priced.',
    );
    return false;
  });
  if (left.length === 0) return stale;
  const now = await loadForEdits(tx, yardId);
  for (const row of left) {
    const why = whyOther(now, row);
    if (why !== null) stale.set(row.id, why);
  }
  return stale;
}
