import { Injectable } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import { refusalOf } from '#persistence/refusal.ts';
import { lockWork } from '#persistence/workload/store.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database, type Tx } from '../../platform/database/database.ts';
import { appendEvent } from '../../platform/database/events.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import type { Claim, ClaimInput, ClaimsWanted, MomentOfWorkInput } from './claims.contract.ts';
import { claimOf, findClaim, insertClaim, listClaims } from './claims.store.ts';
import { crewFor } from './crew.ts';
import { momentOf } from './moment.ts';
import { standing, whyNot } from './ready.store.ts';
import { assertIdle, beginTask, endTask, putBack, setClaim } from './task-state.ts';

@Injectable()
export class ClaimsService {
  constructor(private readonly database: Database) {}

  list(viewer: Viewer, wanted: ClaimsWanted, page: PageRequest): Promise<Page<Claim>> {
    return this.database.inYard(viewer, (tx) =>
      listClaims(tx, viewer.yardId, viewer.memberId, wanted, page),
    );
  }

  get(viewer: Viewer, id: string): Promise<Claim> {
    return this.database.inYard(viewer, (tx) => findClaim(tx, viewer.yardId, id));
  }

  /**
   * Takes a ready task for a crew. Of several at once the database lets one win
   * (`claim_one_open`): the insert comes first, and everything else is judged after it.
   */
  async claim(viewer: Viewer, taskId: string, input: ClaimInput): Promise<Claim> {
    const { yardId } = viewer;
    try {
      return await this.database.inYard(viewer, async (tx) => {
        // The foreman does not set a crew meanwhile, and claims of one another do not wait.
        await tx.$queryRaw`SELECT 1 FROM task WHERE yard_id = ${yardId} AND id = ${taskId} FOR SHARE`;
        const task = await tx.task.findUnique({ where: { yardId_id: { yardId, id: taskId } } });
        if (!task) throw new DomainError('record.missing', `There is no task "${taskId}".`);
        const holder = await claimOf(tx, yardId, taskId);
        if (holder) throw taken(holder);
        const crew = await crewFor(tx, viewer, task, input.crew);
        const id = await insertClaim(tx, yardId, taskId, crew);
        await assertReady(tx, yardId, taskId, new Date());
        await appendEvent(tx, viewer, 'task-claimed', 'task', taskId, { claimId: id, crew });
        return findClaim(tx, yardId, id);
      });
    } catch (error) {
      if (refusalOf(error)?.constraint !== 'claim_one_open') throw error;
      throw taken(await this.database.inYard(viewer, (tx) => claimOf(tx, yardId, taskId)));
    }
  }

  /** Gives the task back. Work on hand is given back too, unless resin is already on the part. */
  release(viewer: Viewer, id: string): Promise<Claim> {
    return this.#change(viewer, id, 'task-released', async (tx, claim) => {
      if (claim.status === 'working') await putBack(tx, viewer.yardId, claim);
      else expectStatus(claim, 'open');
      await setClaim(tx, viewer.yardId, claim, { status: 'released', releasedAt: new Date() });
    });
  }

  /** The work begins: what it needs is looked at once more, for the moment at which it did. */
  start(viewer: Viewer, id: string, { at }: MomentOfWorkInput): Promise<Claim> {
    return this.#change(viewer, id, 'task-started', async (tx, claim) => {
      const { yardId } = viewer;
      expectStatus(claim, 'open');
      const moment = momentOf(at, null);
      await assertIdle(tx, yardId, claim);
      await assertReady(tx, yardId, claim.taskId, moment);
      await beginTask(tx, yardId, claim, moment);
      await setClaim(tx, yardId, claim, { status: 'working', startedAt: moment });
    });
  }

  /** The work is over: the film's clock, and all that follows, runs from this moment. */
  finish(viewer: Viewer, id: string, { at }: MomentOfWorkInput): Promise<Claim> {
    return this.#change(viewer, id, 'task-finished', async (tx, claim) => {
      expectStatus(claim, 'working');
      const moment = momentOf(at, claim.startedAt);
      await endTask(tx, viewer.yardId, claim, moment);
      await setClaim(tx, viewer.yardId, claim, { status: 'finished', finishedAt: moment });
    });
  }

  /** Changes of work are done one after the other in a yard, so that each judges what the others did. */
  #change(
    viewer: Viewer,
    id: string,
    event: string,
    change: (tx: Tx, claim: Claim) => Promise<void>,
  ): Promise<Claim> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      await lockWork(tx, yardId);
      const claim = await findClaim(tx, yardId, id);
      const isOwn = claim.crew.some((member) => member.id === viewer.memberId);
      if (!isOwn && !viewer.roles.includes('foreman')) {
        throw new DomainError('access.role', `${names(claim)} holds this claim.`, {
          cure: 'Ask them, or the foreman.',
        });
      }
      await change(tx, claim);
      const changed = await findClaim(tx, yardId, id);
      const { taskId, startedAt, finishedAt } = changed;
      await appendEvent(tx, viewer, event, 'task', taskId, { claimId: id, startedAt, finishedAt });
      return changed;
    });
  }
}

async function assertReady(tx: Tx, yardId: string, taskId: string, at: Date): Promise<void> {
  const why = whyNot(await standing(tx, yardId, at), taskId);
  if (why !== null) throw new DomainError('claim.not-ready', `The task is not ready: ${why}.`);
}

/** `null`: the holder gave it back between the refusal and the look at who it was. */
function taken(holder: Claim | null): DomainError {
  return new DomainError(
    'claim.taken',
    holder
      ? `${names(holder)} holds "${holder.task}" since ${holder.claimedAt}.`
      : 'Somebody held the task a moment ago.',
  );
}

const names = ({ crew }: Claim): string => crew.map(({ name }) => name).join(' and ');

function expectStatus(claim: Claim, status: Claim['status']): void {
  if (claim.status === status) return;
  throw new DomainError('claim.state', `The claim is ${claim.status}, not ${status}.`);
}
