import { Injectable } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import { planRunQueue } from '#persistence/queue/plan-runs.ts';
import { queueOf } from '#persistence/queue/replans.ts';
import { isoOf } from '#persistence/rows.ts';
import { appendRunEvent, runSubject } from '#persistence/run/events.ts';
import { isFinal, runSnapshotSchema } from '#persistence/run/snapshot.ts';
import { usualStart } from '#persistence/run/usual-start.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database } from '../../platform/database/database.ts';
import { isUuid } from '../../platform/database/uuid.ts';
import { newestArgs, toNewestPage } from '../../platform/paging/newest.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { Jobs } from '../../platform/queue/jobs.ts';
import { leavable } from '../../platform/streams/leavable.ts';
import { EventsService } from '../events/events.service.ts';
import type { PlanRun, PlanRunInput, RunProgress } from './plan-runs.contract.ts';
import { eventSpan, findRun, runDetails, showRun } from './plan-runs.store.ts';

@Injectable()
export class PlanRunsService {
  constructor(
    private readonly database: Database,
    private readonly jobs: Jobs,
    private readonly events: EventsService,
  ) {}

  list(viewer: Viewer, page: PageRequest): Promise<Page<PlanRun>> {
    const { where, ...rest } = newestArgs(page);
    return this.database.inYard(viewer, async (tx) => {
      const rows = await tx.planRun.findMany({
        where: { yardId: viewer.yardId, ...where },
        ...rest,
        include: runDetails,
      });
      return toNewestPage(rows, page, showRun);
    });
  }

  get(viewer: Viewer, id: string): Promise<PlanRun> {
    return this.database.inYard(viewer, async (tx) =>
      showRun(await findRun(tx, viewer.yardId, id)),
    );
  }

  /** Asks for a plan. The run and its job exist together or not at all; a worker does the rest. */
  start(viewer: Viewer, { seconds, iterations, seed, notBefore }: PlanRunInput): Promise<PlanRun> {
    const { yardId, memberId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      const run = await tx.planRun.create({
        data: {
          yardId,
          requestedById: memberId,
          seed,
          seconds: seconds ?? null,
          iterations: iterations ?? null,
          notBefore: notBefore === undefined ? await usualStart(tx, yardId) : new Date(notBefore),
        },
        include: runDetails,
      });
      await this.jobs.add(tx, planRunQueue.name, { yardId, runId: run.id }, { id: run.id });
      await appendRunEvent(tx, run, { kind: 'plan-run-queued', memberId });
      return showRun(run);
    });
  }

  /** Ends a run that waits; asks the worker of one that is under way to end it with what it has. */
  stop(viewer: Viewer, id: string): Promise<PlanRun> {
    const { yardId, memberId } = viewer;
    if (!isUuid(id)) return this.get(viewer, id);
    const now = new Date();
    return this.database.inYard(viewer, async (tx) => {
      const waiting = await tx.planRun.updateMany({
        where: { yardId, id, status: 'queued' },
        data: { status: 'stopped', stopRequestedAt: now, finishedAt: now },
      });
      const running = await tx.planRun.updateMany({
        where: { yardId, id, status: 'running', stopRequestedAt: null },
        data: { stopRequestedAt: now },
      });
      const run = await findRun(tx, yardId, id);
      if (waiting.count > 0) {
        await this.jobs.cancel(tx, queueOf(run), id);
        await appendRunEvent(tx, run, { kind: 'plan-run-ended', memberId });
      } else if (running.count > 0) {
        await appendRunEvent(tx, run, { kind: 'plan-run-stopping', memberId });
      } else if (run.status !== 'running') {
        throw new DomainError('run.state', `The run has ended: it is ${run.status}.`);
      }
      return showRun(run);
    });
  }

  /**
   * How the run goes: first how it stands (or all since the event `after`), then each change,
   * until its end.
   */
  async follow(
    viewer: Viewer,
    id: string,
    after: bigint | null,
  ): Promise<AsyncIterableIterator<RunProgress, void>> {
    const { run, span } = await this.database.inYard(viewer, async (tx) => {
      // In this order: an event between the two is then followed, not missed.
      const events = isUuid(id) ? await eventSpan(tx, viewer.yardId, id) : null;
      return { run: await findRun(tx, viewer.yardId, id), span: events };
    });
    const first = span?.first ?? 0n;
    const last = span?.last ?? 0n;
    if (after !== null && after >= last && isFinal(run.status)) return leavable(nothing);
    const from = after === null ? last - 1n : after < first ? first - 1n : after;
    const events = await this.events.follow(viewer, from);
    return leavable(async function* (left) {
      left.addEventListener('abort', () => void events.return?.(), { once: true });
      for await (const event of events) {
        if (event.subject !== runSubject || event.subjectId !== id) continue;
        const snapshot = runSnapshotSchema.parse(event.payload);
        yield { eventId: String(event.id), runId: id, at: isoOf(event.at), ...snapshot };
        if (isFinal(snapshot.status)) return;
      }
    });
  }
}

async function* nothing(): AsyncGenerator<RunProgress, void> {
  // Over before it begins.
}
