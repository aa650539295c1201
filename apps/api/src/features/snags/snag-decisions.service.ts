import { randomUUID } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import { snagKindSchema } from '#live/rework/defects.ts';
import { reworkFor } from '#live/rework/rework-for.ts';
import { suspectOf } from '#live/rework/suspect.ts';
import { loadForEdits } from '#persistence/live/edits.ts';
import { makeRework, reworkPayload } from '#persistence/live/reworks.ts';
import { lockWork, loadWorkload } from '#persistence/workload/store.ts';
import { standingOf } from '#planning/compile/work/choices.ts';
import { isToPlan } from '#planning/workload/standing.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database, type Tx } from '../../platform/database/database.ts';
import { appendEvent } from '../../platform/database/events.ts';
import { ProposalsService } from '../proposals/proposals.service.ts';
import type { AcceptReworkInput, Snag } from './snags.contract.ts';
import { assertState, SnagsService } from './snags.service.ts';
import { findSnag, lockSnag, type SnagRow } from './snags.store.ts';

/** What the foreman does about a snag. */
@Injectable()
export class SnagDecisionsService {
  constructor(
    private readonly database: Database,
    private readonly proposals: ProposalsService,
    private readonly snags: SnagsService,
  ) {}

  /** Works out what has to be done again, and has it priced, before anybody says yes to it. */
  propose(viewer: Viewer, id: string): Promise<Snag> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      const snag = await lockSnag(tx, yardId, id);
      assertState(snag, ['open', 'proposed'], 'no other rework can be proposed for it');
      const { yard, workload } = await loadForEdits(tx, yardId);
      const kind = snagKindSchema.parse(snag.kind);
      const taskId = snag.taskId ?? suspectOf(yard, workload, snag.partId, kind)?.id;
      if (taskId === undefined) throw nothingDone(snag);
      const { edits, words } = reworkFor({
        yard,
        workload,
        taskId,
        cause: 'snag',
        defect: kind,
        areaM2: snag.areaM2,
        reworkId: randomUUID(),
      });
      const proposalId = await this.proposals.propose(tx, viewer, {
        snagId: id,
        edits,
        meaning: [words],
      });
      await setState(tx, snag, 'proposed', { taskId });
      await appendEvent(tx, viewer, 'rework-proposed', 'snag', id, { proposalId, taskId });
      return this.#shown(tx, viewer, id);
    });
  }

  /**
   * Agrees to the price that was read: the rework becomes part of the work. With a reason also where
   * there is no price: what is at fault has to be done again, whatever becomes of the plan.
   */
  accept(viewer: Viewer, id: string, { proposalId, override }: AcceptReworkInput): Promise<Snag> {
    const { yardId, memberId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      await lockWork(tx, yardId);
      const snag = await lockSnag(tx, yardId, id);
      assertState(snag, ['proposed'], 'there is no rework to agree to');
      const told = await this.proposals.latest(tx, yardId, { snagId: id });
      if (told?.id === proposalId && told.state === 'unplannable' && override === undefined)
        throw noPrice(told.why);
      const unpriced = override !== undefined;
      const edits = await this.proposals.take(tx, yardId, { snagId: id }, proposalId, { unpriced });
      const reworkId = edits.addTasks.find(({ rework }) => rework !== null)?.rework;
      if (reworkId === undefined || reworkId === null || snag.taskId === null)
        throw new DomainError('proposal.stale', 'The proposal says of no rework.');
      const made = {
        yardId,
        reworkId,
        cause: 'snag' as const,
        snagId: id,
        taskId: snag.taskId,
        words: told?.meaning.join(' ') ?? '',
        edits,
        byMemberId: memberId,
      };
      const lives = await makeRework(tx, made);
      await setState(tx, snag, 'accepted', override && { note: override.reason });
      await appendEvent(tx, viewer, 'snag-accepted', 'snag', id, {
        proposalId,
        reworkId,
        ...(override && { override }),
      });
      const answer = await this.#shown(tx, viewer, id);
      await appendEvent(tx, viewer, 'rework-made', 'task', snag.taskId, reworkPayload(made, lives));
      return answer;
    });
  }

  /** It is no defect, or is left as it is. What was proposed is declined with it. */
  dismiss(viewer: Viewer, id: string, note: string): Promise<Snag> {
    return this.#decide(viewer, id, ['open', 'proposed'], 'dismissed', note);
  }

  /** It is gone: mended on the spot, or by its rework, of which nothing is left to do then. */
  settle(viewer: Viewer, id: string, note: string): Promise<Snag> {
    return this.#decide(viewer, id, ['open', 'proposed', 'accepted'], 'settled', note);
  }

  /** It is there after all. */
  reopen(viewer: Viewer, id: string, note: string): Promise<Snag> {
    return this.#decide(viewer, id, ['settled', 'dismissed'], 'open', note);
  }

  #decide(
    viewer: Viewer,
    id: string,
    from: readonly string[],
    to: 'dismissed' | 'settled' | 'open',
    note: string,
  ): Promise<Snag> {
    const { yardId } = viewer;
    const said = to === 'open' ? 'reopened' : to;
    return this.database.inYard(viewer, async (tx) => {
      const snag = await lockSnag(tx, yardId, id);
      assertState(snag, from, `it cannot be ${said}`);
      if (to === 'settled') await assertReworked(tx, snag);
      await this.proposals.close(tx, yardId, { snagId: id }, 'declined');
      await setState(tx, snag, to, { note });
      await appendEvent(tx, viewer, `snag-${said}`, 'snag', id, { note });
      return this.#shown(tx, viewer, id);
    });
  }

  async #shown(tx: Tx, viewer: Viewer, id: string): Promise<Snag> {
    return this.snags.shown(tx, viewer, await findSnag(tx, viewer.yardId, id));
  }
}

const nothingDone = ({ partId }: SnagRow): DomainError =>
  new DomainError(
    'snag.state',
    `Nothing that was done on "${partId}" so far can have such a defect.`,
    {
      cure: 'Name the done task, or order a procedure that repairs what was there before by a change order.',
    },
  );

const noPrice = (why: readonly string[]): DomainError =>
  new DomainError('snag.state', `There is no price to agree to. ${why.join(' ')}`.trim(), {
    cure: 'Mend the plan and have it priced again, or send override.reason to have it done without a price.',
  });

async function setState(
  tx: Tx,
  { yardId, id }: SnagRow,
  state: string,
  more: { taskId?: string; note?: string } = {},
): Promise<void> {
  await tx.snag.update({ where: { yardId_id: { yardId, id } }, data: { state, ...more } });
}

async function assertReworked(tx: Tx, { yardId, reworks }: SnagRow): Promise<void> {
  if (reworks.length === 0) return;
  const workload = await loadWorkload(tx, yardId);
  const { dropped } = standingOf(workload);
  const made = new Set(reworks.map(({ id }) => id));
  const left = workload.tasks.find(
    (task) =>
      task.rework !== null &&
      made.has(task.rework) &&
      !dropped.has(task.id) &&
      (isToPlan(task) || task.state === 'working'),
  );
  if (left === undefined) return;
  throw new DomainError(
    'snag.state',
    `Its rework is not done: “${left.name}” (${left.id}) is ${left.state}.`,
    {
      cure: 'Finish the rework, then settle the snag.',
    },
  );
}
