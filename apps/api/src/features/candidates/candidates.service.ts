import { Injectable } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import { differenceOf } from '#live/difference/difference.ts';
import { appendCandidateEvent, causeSchema } from '#persistence/plan/candidates.ts';
import { differenceSchema } from '#persistence/plan/difference-shape.ts';
import { sinceOffered } from '#persistence/plan/moved-on.ts';
import { replanQueue } from '#persistence/queue/replans.ts';
import { requestReplan, stopLonger } from '#persistence/run/replans.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database } from '../../platform/database/database.ts';
import { YardStates } from '../../platform/database/yard-states.ts';
import type { Page } from '../../platform/paging/page.ts';
import { Jobs } from '../../platform/queue/jobs.ts';
import type {
  Candidate,
  CandidatesQuery,
  CandidateView,
  DifferenceQuery,
  PlanDifference,
  ReplanRequest,
} from './candidates.contract.ts';
import {
  type CandidateRow,
  findCandidate,
  findSheet,
  listCandidates,
  showCandidate,
} from './candidates.store.ts';

/** Plans that were made because something happened, for the foreman to decide; and what plans change. */
@Injectable()
export class CandidatesService {
  constructor(
    private readonly database: Database,
    private readonly states: YardStates,
    private readonly jobs: Jobs,
  ) {}

  list(viewer: Viewer, query: CandidatesQuery): Promise<Page<Candidate>> {
    return this.database.inYard(viewer, (tx) => listCandidates(tx, viewer.yardId, query));
  }

  get(viewer: Viewer, planId: string): Promise<CandidateView> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      const row = await findCandidate(tx, yardId, planId);
      const { sheet } = await findSheet(tx, yardId, planId);
      const now = new Date();
      const since =
        row.state === 'open'
          ? await sinceOffered(tx, { ...row, sheet }, await this.states.at(tx, yardId), now)
          : [];
      const base =
        row.basePlanId === null ? sheet : (await findSheet(tx, yardId, row.basePlanId)).sheet;
      const difference = differenceOf(base, sheet, { now: row.createdAt.toISOString() });
      const { words, boats, windows } = differenceSchema.parse(difference);
      return { ...showCandidate(row), since, words, boats, windows };
    });
  }

  /** What a plan changes against another, or the published one. */
  difference(viewer: Viewer, id: string, { from }: DifferenceQuery): Promise<PlanDifference> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      const after = await findSheet(tx, yardId, id);
      const before = await findSheet(tx, yardId, from ?? null);
      const now = new Date().toISOString();
      const difference = differenceSchema.parse(differenceOf(before.sheet, after.sheet, { now }));
      return { planId: after.planId, fromPlanId: before.planId, ...difference };
    });
  }

  /** The published plan stays; what is still searched for something better ends. */
  discard(viewer: Viewer, planId: string): Promise<Candidate> {
    const { yardId, memberId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      const row = await findCandidate(tx, yardId, planId);
      const decidedAt = new Date();
      // Runs before candidates, as a worker has them that ends one.
      await stopLonger(tx, yardId, decidedAt);
      const { count } = await tx.candidate.updateMany({
        where: { yardId, planId, state: 'open' },
        data: { state: 'discarded', decidedById: memberId, decidedAt },
      });
      if (count === 0) throw decided(await findCandidate(tx, yardId, row.planId));
      await appendCandidateEvent(tx, { yardId, planId, kind: 'candidate-discarded', memberId });
      return showCandidate(await findCandidate(tx, yardId, planId));
    });
  }

  /** Plans anew from this moment on, though nothing is known to have happened. */
  ask(viewer: Viewer): Promise<ReplanRequest> {
    const { yardId, memberId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      await findSheet(tx, yardId, null);
      const { name } = await tx.member.findUniqueOrThrow({
        where: { yardId_id: { yardId, id: memberId } },
        select: { name: true },
      });
      const cause = [`${name} asked for it.`];
      const run = await requestReplan(
        tx,
        { yardId, cause, requestedById: memberId, now: new Date() },
        async (job, startAfter) => {
          const options = { id: job.runId, ...(startAfter === null ? {} : { startAfter }) };
          await this.jobs.add(tx, replanQueue.name, job, options);
        },
      );
      return { runId: run.id, cause: causeSchema.parse(run.cause) };
    });
  }
}

function decided({ state }: CandidateRow): DomainError {
  return new DomainError('candidate.state', `The candidate is ${state} already.`);
}
