import {
  type BeforeApplicationShutdown,
  Injectable,
  Logger,
  type OnApplicationBootstrap,
} from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import { asJsonOrNull } from '#persistence/rows.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database, type Tx } from '../../platform/database/database.ts';
import { Notices } from '../../platform/streams/notices.ts';
import { passing } from './reasons.ts';
import { ReportedWork } from './reported-work.ts';
import type { Claim } from '../work/work.service.ts';
import type { Report } from './reports.contract.ts';
import { heldIds, lockHeld, updateReport } from './reports.store.ts';

/** The database tells it of every committed event, `<yardId>:<id>`. */
const channel = 'curewright_event';
/** Events come in bursts; so long one of them waits for the others, ms. */
const pauseMs = 500;
const mostAtOnce = 100;

/**
 * Reports that came before what they follow on, a start before another's finish: tried again
 * whenever something happens in their yard, by whichever process is first, in the name of whoever
 * reported it and at the moment at which it was.
 */
@Injectable()
export class HeldReports implements OnApplicationBootstrap, BeforeApplicationShutdown {
  readonly #log = new Logger('reports');
  readonly #waiting = new Map<string, NodeJS.Timeout>();
  readonly #running = new Set<Promise<unknown>>();

  constructor(
    private readonly database: Database,
    private readonly reported: ReportedWork,
    private readonly notices: Notices,
  ) {}

  async onApplicationBootstrap(): Promise<void> {
    await this.notices.listen(
      channel,
      (told) => this.#soon(told.slice(0, told.lastIndexOf(':'))),
      // What was missed while away: the yard's next event makes up for it.
      () => undefined,
    );
  }

  async beforeApplicationShutdown(): Promise<void> {
    for (const timer of this.#waiting.values()) clearTimeout(timer);
    this.#waiting.clear();
    await Promise.allSettled(this.#running);
  }

  /** Carries out what can be by now, round after round while one frees another; by id, what became of them. */
  async tryAgain(yardId: string): Promise<ReadonlyMap<string, Report>> {
    const done = new Map<string, Report>();
    for (let before = -1; before < done.size;) {
      before = done.size;
      const ids = await this.database.asService(yardId, (tx) =>
        heldIds(tx, yardId, passing, mostAtOnce),
      );
      for (const id of ids) {
        const report = await this.#tryOne(yardId, id);
        if (report) done.set(id, report);
      }
    }
    return done;
  }

  async #tryOne(yardId: string, id: string): Promise<Report | null> {
    try {
      return await this.database.asService(yardId, async (tx) => {
        const report = await lockHeld(tx, yardId, id, false);
        if (report === null) return null;
        const viewer = await reporter(tx, yardId, report.member.id);
        const context = { at: new Date(report.at), reportId: id };
        const claim = await this.reported.carryOut(tx, viewer, report.command, context);
        if (claim !== null) assertOfThisClaim(claim, context.at);
        const answer = asJsonOrNull(claim);
        return updateReport(tx, yardId, id, { outcome: 'done', reason: [], answer });
      });
    } catch (error) {
      if (error instanceof DomainError) return null;
      throw error;
    }
  }

  #soon(yardId: string): void {
    if (this.#waiting.has(yardId)) return;
    const timer = setTimeout(() => {
      this.#waiting.delete(yardId);
      const run = this.tryAgain(yardId).catch((error: unknown) => {
        this.#log.warn(
          `held reports wait on: ${error instanceof Error ? error.message : String(error)}`,
        );
      });
      this.#running.add(run);
      void run.finally(() => this.#running.delete(run));
    }, pauseMs);
    timer.unref();
    this.#waiting.set(yardId, timer);
  }
}

/** What was so before a claim was made is about an earlier one, and must not end or begin this. */
function assertOfThisClaim({ claimedAt }: Claim, at: Date): void {
  if (Date.parse(claimedAt) > at.getTime()) throw new DomainError('claim.state');
}

/** Whoever reported it, as they are in the yard now. */
async function reporter(tx: Tx, yardId: string, memberId: string): Promise<Viewer> {
  const where = { yardId_id: { yardId, id: memberId } };
  const { roles, accountId } = await tx.member.findUniqueOrThrow({ where });
  return { yardId, memberId, roles, accountId: accountId ?? '', sees: 'all' };
}
