import { lately } from '../../../offline/lately.ts';
import { queue } from '../../../offline/queue.ts';
import { fresh } from '../../../offline/outcome.ts';
import type { QueuedDeed } from '../../../offline/store.ts';
import type { Told } from './mine.ts';

const toldOf = ({ deed, at }: QueuedDeed, isUnsent: boolean, claimId: string | null): Told[] =>
  deed.kind === 'report'
    ? [{ command: deed.command, at, isUnsent, claimId: claimId ?? deed.claimId }]
    : [];

/** What was done in the yard that a reading of `asOf` cannot show: taken since, on its way, or waiting. */
export function toldSince(yardId: string, asOf: string): readonly Told[] {
  const done = lately.value
    .filter(({ queued, doneAt }) => queued.yardId === yardId && doneAt >= asOf)
    .flatMap(({ queued, claimId }) => toldOf(queued, false, claimId));
  const waiting = queue.value
    .filter((queued) => queued.yardId === yardId && queued.refused === null)
    .flatMap((queued) => toldOf(queued, !fresh.value.has(queued.key), null));
  return [...done, ...waiting];
}
