import { Injectable } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import type { WorkEdits } from '#live/edits/edits.ts';
import { loadForEdits } from '#persistence/live/edits.ts';
import { lastEventId } from '#persistence/live/yard-state.ts';
import { type PriceJob, priceQueue } from '#persistence/queue/price.ts';
import { asJson } from '#persistence/rows.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import type { Tx } from '../../platform/database/database.ts';
import { Jobs } from '../../platform/queue/jobs.ts';
import { Proposal } from './proposals.contract.ts';
import {
  type Cause,
  closeOpen,
  editsOf,
  latestOf,
  latestRow,
  proposalsOfChanges,
} from './proposals.store.ts';
import { effectIn, staleOf } from './staleness.ts';

/** For those who show one. */
export { Proposal, proposalsOfChanges };

/** What is to be priced. */
export type Proposed = Cause & {
  readonly edits: WorkEdits;
  /** What they mean for the work, in words. */
  readonly meaning: readonly string[];
};

/**
 * What snags and changes would do to the work, priced before anybody says yes. All of it is part of the
 * caller's transaction, which sees the whole yard.
 */
@Injectable()
export class ProposalsService {
  constructor(private readonly jobs: Jobs) {}

  /** In place of any that waited for the same; a worker prices it. Throws as `applyEdits` does. */
  async propose(
    tx: Tx,
    { yardId, memberId }: Pick<Viewer, 'yardId' | 'memberId'>,
    { edits, meaning, ...cause }: Proposed,
  ): Promise<string> {
    const effect = effectIn(await loadForEdits(tx, yardId), edits);
    await closeOpen(tx, yardId, cause, 'superseded');
    const { id } = await tx.proposal.create({
      data: {
        yardId,
        ...cause,
        edits: asJson(edits),
        effect: asJson(effect),
        meaning: [...meaning],
        readEventId: await lastEventId(tx, yardId),
      },
    });
    const job: PriceJob = { yardId, proposalId: id, askedBy: memberId };
    await this.jobs.add(tx, priceQueue.name, job, { id });
    return id;
  }

  latest(tx: Tx, yardId: string, cause: Cause): Promise<Proposal | null> {
    return latestOf(tx, yardId, cause);
  }

  /**
   * Takes the proposal that somebody says yes to; the caller holds `lockWork` and saves the edits.
   * Throws `proposal.stale` where it is not the one that was priced last, or where the work is not any
   * more what it was priced with. `unpriced`: also one that has no price since the yard has no plan.
   */
  async take(
    tx: Tx,
    yardId: string,
    cause: Cause,
    proposalId: string,
    { unpriced = false }: { readonly unpriced?: boolean } = {},
  ): Promise<WorkEdits> {
    const row = await latestRow(tx, yardId, cause);
    if (row?.id !== proposalId)
      throw new DomainError(
        'proposal.stale',
        'There is a later price than the one you agreed to.',
        {
          cure: 'Read it again, then decide.',
        },
      );
    const { state } = row;
    if (state !== 'priced' && !(unpriced && state === 'unplannable'))
      throw new DomainError(
        'proposal.stale',
        `The price is ${state}, so nobody can say yes to it.`,
      );
    const why = (await staleOf(tx, yardId, [row])).get(row.id);
    if (why !== undefined) throw new DomainError('proposal.stale', why);
    const { count } = await tx.proposal.updateMany({
      where: { yardId, id: proposalId, state },
      data: { state: 'accepted' },
    });
    if (count !== 1) throw new DomainError('proposal.stale');
    return editsOf(row);
  }

  close(tx: Tx, yardId: string, cause: Cause, state: 'declined' | 'superseded'): Promise<void> {
    return closeOpen(tx, yardId, cause, state);
  }
}
