import { Injectable } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import { phoneMoment } from '#live/life/phone.ts';
import type { ReportCommand } from '#live/reports/commands.ts';
import { refusalOf } from '#persistence/refusal.ts';
import { asJsonOrNull } from '#persistence/rows.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database, type Tx } from '../../platform/database/database.ts';
import { appendEvent } from '../../platform/database/events.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { HeldReports } from './held-reports.ts';
import { assertSame, type Read, readQueue } from './queue.ts';
import { reasonsOf } from './reasons.ts';
import { ReportedWork } from './reported-work.ts';
import type {
  Reasons,
  Report,
  ReportsFilter,
  SettleInput,
  TakenReport,
  TakenReports,
} from './reports.contract.ts';
import {
  type Became,
  findByKey,
  findReport,
  heldBefore,
  insertReport,
  listReports,
  lockHeld,
  type Understood,
  updateReport,
} from './reports.store.ts';

@Injectable()
export class ReportsService {
  constructor(
    private readonly database: Database,
    private readonly reported: ReportedWork,
    private readonly held: HeldReports,
  ) {}

  list(viewer: Viewer, filter: ReportsFilter, page: PageRequest): Promise<Page<Report>> {
    return this.database.inYard(viewer, (tx) => listReports(tx, viewer.yardId, filter, page));
  }

  get(viewer: Viewer, id: string): Promise<Report> {
    return this.database.inYard(viewer, (tx) => findReport(tx, viewer.yardId, id));
  }

  /**
   * Takes a phone's queue, in the order of its moments: a report is carried out or held, in a
   * transaction of its own, and is kept either way. Sent again, it is answered with what has become
   * of it. Where the service cannot go on, all of the queue may be sent again.
   */
  async send(
    viewer: Viewer,
    {
      reports,
      sentAt,
    }: { readonly reports: readonly unknown[]; readonly sentAt?: string | undefined },
  ): Promise<TakenReports> {
    const read = readQueue(reports, sentAt, viewer, new Date());
    const items = read.map((one) => ('refused' in one ? one.refused : null));
    const inTime = [...read.keys()].sort((a, b) => timeOf(read[a]) - timeOf(read[b]) || a - b);
    for (const index of inTime) {
      const one = read[index];
      if ('report' in one) items[index] = await this.#take(viewer, one.report, one.unlikely);
    }
    const taken = items.filter((item) => item !== null);
    if (!taken.some(({ outcome }) => outcome === 'done')) return { items: taken };
    const done = await this.held.tryAgain(viewer.yardId);
    return { items: taken.map((item) => asItIs(item, done)) };
  }

  /** A held report is carried out on the foreman's word, at the moment that it had or another, or dismissed. */
  settle(viewer: Viewer, id: string, input: SettleInput): Promise<Report> {
    const { yardId, memberId: settledById } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      const report = await lockHeld(tx, yardId, id, true);
      if (report === null) {
        const { outcome } = await findReport(tx, yardId, id);
        throw new DomainError('report.state', `The report is ${outcome}, not held.`);
      }
      const settled = { settledById, settledAt: new Date(), note: input.note };
      if (input.as === 'dismissed') {
        const dismissed = await updateReport(tx, yardId, id, { ...settled, outcome: 'dismissed' });
        await tellOf(tx, viewer, 'report-dismissed', dismissed);
        return dismissed;
      }
      const at = input.at === undefined ? new Date(report.at) : phoneMoment(input, new Date());
      const command = withOverride(report.command, input.override);
      const claim = await this.reported.carryOut(tx, viewer, command, { at, reportId: id });
      const answer = asJsonOrNull(claim);
      const done = { ...settled, outcome: 'done', reason: [], answer, at };
      const carriedOut = await updateReport(tx, yardId, id, done);
      await tellOf(tx, viewer, 'report-done', carriedOut);
      return carriedOut;
    });
  }

  async #take(viewer: Viewer, report: Understood, unlikely: Reasons): Promise<TakenReport> {
    const { yardId, memberId } = viewer;
    try {
      if (unlikely.length > 0) return await this.#hold(viewer, report, unlikely);
      return await this.database.inYard(viewer, async (tx) => {
        const before = await findByKey(tx, yardId, memberId, report.key);
        if (before) return again(before, report);
        const context = { at: report.at, reportId: report.id };
        const claim = (await takenBack(tx, viewer, report))
          ? null
          : await this.reported.carryOut(tx, viewer, report.command, context);
        const became: Became = { outcome: 'done', reasons: [], claim };
        return taken(await insertReport(tx, yardId, memberId, report, became));
      });
    } catch (error) {
      if (refusalOf(error)?.constraint === oneByKey) return this.#taken(viewer, report);
      return this.#hold(viewer, report, reasonsOf(error));
    }
  }

  /** Keeps what could not be carried out; where another call was quicker with it, what that made of it. */
  async #hold(viewer: Viewer, report: Understood, reasons: Reasons): Promise<TakenReport> {
    const { yardId, memberId } = viewer;
    try {
      return await this.database.inYard(viewer, async (tx) => {
        const before = await findByKey(tx, yardId, memberId, report.key);
        if (before) return again(before, report);
        const became: Became = { outcome: 'held', reasons, claim: null };
        const held = await insertReport(tx, yardId, memberId, report, became);
        await tellOf(tx, viewer, 'report-held', held);
        return taken(held);
      });
    } catch (error) {
      if (refusalOf(error)?.constraint === oneByKey) return this.#taken(viewer, report);
      throw error;
    }
  }

  #taken(viewer: Viewer, report: Understood): Promise<TakenReport> {
    const { yardId, memberId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      const before = await findByKey(tx, yardId, memberId, report.key);
      if (!before) throw new DomainError('service.unavailable');
      return again(before, report);
    });
  }
}

const oneByKey = 'report_yard_id_member_id_key_key';

const taken = (report: Report): TakenReport => {
  const { key, outcome, reasons } = report;
  return { key, outcome, reasons, report };
};

/** Under a key that was used for another report nothing is done. */
function again(before: Report, report: Understood): TakenReport {
  try {
    assertSame(before, report);
    return taken(before);
  } catch (error) {
    return { key: report.key, outcome: 'refused', reasons: reasonsOf(error), report: null };
  }
}

const timeOf = (one: Read): number => ('report' in one ? one.report.at.getTime() : 0);

/** A report that was held when it came may have been carried out after a later one of the same queue. */
const asItIs = (item: TakenReport, done: ReadonlyMap<string, Report>): TakenReport => {
  const report = item.report && done.get(item.report.id);
  return report ? taken(report) : item;
};

function withOverride(command: ReportCommand, override: SettleInput['override']): ReportCommand {
  if (override === undefined || command.kind !== 'start') return command;
  return { ...command, override };
}

/** Takes back what is held yet: nothing of the work changes by that. False: it takes back something else. */
async function takenBack(
  tx: Tx,
  viewer: Viewer,
  { command, phoneAt }: Understood,
): Promise<boolean> {
  if (command.kind !== 'undo') return false;
  const { yardId, memberId } = viewer;
  const id = await heldBefore(tx, viewer, command.taskId, phoneAt);
  if (id === null || (await lockHeld(tx, yardId, id, true)) === null) return false;
  const note = 'Taken back before it was carried out.';
  const settled = { outcome: 'dismissed', settledById: memberId, settledAt: new Date(), note };
  await tellOf(tx, viewer, 'report-dismissed', await updateReport(tx, yardId, id, settled));
  return true;
}

async function tellOf(tx: Tx, viewer: Viewer, kind: string, report: Report): Promise<void> {
  const { id, command, member, outcome, reasons } = report;
  const taskId = 'taskId' in command ? command.taskId : null;
  await appendEvent(tx, viewer, kind, 'report', id, {
    taskId,
    command: command.kind,
    memberId: member.id,
    outcome,
    reasons: reasons.map(({ message }) => message),
  });
}
