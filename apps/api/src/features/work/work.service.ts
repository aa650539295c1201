import { randomUUID } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import { act } from '#live/life/act.ts';
import type { Acting } from '#live/life/acting.ts';
import { assertFree, hasLapsed } from '#live/life/claiming.ts';
import type { WorkCommand } from '#live/life/commands.ts';
import type { ClaimLife } from '#live/life/life.ts';
import { endOfWork, paceOf } from '#live/life/pace.ts';
import { lapseReport, lockTask } from '#persistence/live/lapse.ts';
import { logWork, storeWork, type WorkReport } from '#persistence/live/report-work.ts';
import { type ClaimLapseJob, claimLapseQueue } from '#persistence/queue/claim-lapse.ts';
import { lockWork } from '#persistence/workload/store.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import type { Tx } from '../../platform/database/database.ts';
import { YardStates } from '../../platform/database/yard-states.ts';
import { Jobs } from '../../platform/queue/jobs.ts';
import type { Claim } from './claims.contract.ts';
import { madeSince, withoutPreparations } from './late-report.ts';
import { lapsedClaim, shownClaim, workSettings } from './work.store.ts';
import { assertMay, startAgainst } from './work-guards.ts';
import { nameIn, placeOf, type WorkPlace } from './work-place.ts';
import { type Follows, makeReworkAfter, withdrawReworkOf } from './work-rework.ts';
import { undoReport } from './work-undo.ts';

export { Claim } from './claims.contract.ts';

interface ReportContext {
  /** When it really was, by the service's clock. */
  readonly at: Date;
  /** Of the report that a phone sent; null of what is called for directly. */
  readonly reportId: string | null;
  /** The claim that is meant, where it is one: no other is acted on. */
  readonly claimId?: string;
}

type Command<K extends WorkCommand['kind'] = WorkCommand['kind']> = Extract<
  WorkCommand,
  { kind: K }
>;
type OtherThanUndo = Exclude<WorkCommand, Command<'undo'>>;

const minuteMs = 60_000;

/**
 * Everything that can be reported of work. Reports are taken one after the other in a yard, so that
 * each judges what the others did; a claim, which begins nothing, waits for reports of its own task
 * only.
 */
@Injectable()
export class WorkService {
  constructor(
    private readonly states: YardStates,
    private readonly jobs: Jobs,
  ) {}

  /**
   * As part of the caller's transaction, which changes no work before it. The claim as it is then;
   * null where the task has none and had none.
   */
  async actIn(
    tx: Tx,
    viewer: Viewer,
    command: WorkCommand,
    context: ReportContext,
  ): Promise<Claim | null> {
    const { yardId } = viewer;
    const { kind, taskId } = command;
    const locksWork = kind !== 'claim' || (await this.#changesWork(tx, yardId, command, context));
    // Always before the task: whoever holds the work waits for tasks.
    if (locksWork) await lockWork(tx, yardId);
    if (!(await lockTask(tx, yardId, taskId))) {
      throw new DomainError('record.missing', `There is no task "${taskId}".`);
    }
    const state = await this.states.at(tx, yardId);
    const needless = locksWork ? await madeSince(tx, state, command, context.at) : [];
    const without =
      needless.length > 0 ? await withoutPreparations(tx, viewer, state, command, needless) : null;
    const found = placeOf(without?.state ?? state, taskId);
    const lapsed = lapsedBy(yardId, found, command, context);
    const place = lapsed === null ? found : { ...found, life: lapsed.payload.after };
    const whose = { claimId: context.claimId, memberId: viewer.memberId };
    const last =
      found.life.claim ?? (kind === 'start' ? await lapsedClaim(tx, yardId, taskId, whose) : null);
    await assertMeant(tx, yardId, last, context.claimId);

    if (lapsed !== null && kind !== 'claim' && kind !== 'start')
      throw new DomainError('claim.lapsed');
    const taken: WorkReport[] = lapsed === null ? [] : [lapsed];
    for (const report of taken) await storeWork(tx, report);
    if (kind === 'undo') {
      const settings = await workSettings(tx, yardId);
      const { report, undone } = await undoReport(tx, viewer, place, { ...context, ...settings });
      assertMay(place, command, report.payload.after, report.payload.at);
      const follows = await withdrawReworkOf(tx, viewer, taskId, undone);
      await storeWork(tx, report);
      return this.#written(tx, place, [...taken, report], follows);
    }
    const toldLate = without === null ? context : { ...context, leaseFrom: new Date() };
    const report = await this.#reportOf(tx, viewer, place, command, toldLate, last);
    await storeWork(tx, report);
    const follows = await makeReworkAfter(tx, viewer, place, report);
    return this.#written(tx, place, [...taken, report], follows, without?.precedes);
  }

  /**
   * Whether a claim takes work back that was added since. Most of those who come too late are told so
   * here, without waiting for the others who do.
   */
  async #changesWork(
    tx: Tx,
    yardId: string,
    command: Command<'claim'>,
    { at }: ReportContext,
  ): Promise<boolean> {
    const now = await this.states.at(tx, yardId);
    const { state, task, life } = placeOf(now, command.taskId);
    if (!hasLapsed(life, new Date().toISOString())) {
      assertFree(life, { task, nameOf: nameIn(state), timeZone: state.yard.timeZone });
    }
    return (await madeSince(tx, state, command, at)).length > 0;
  }

  async #reportOf(
    tx: Tx,
    viewer: Viewer,
    place: WorkPlace,
    command: OtherThanUndo,
    context: ReportContext & { readonly leaseFrom?: Date },
    last: ClaimLife | null,
  ): Promise<WorkReport> {
    const { yardId, memberId } = viewer;
    const { state, task, life } = place;
    const isForeman = viewer.roles.includes('foreman');
    const exactly = context.at.toISOString();
    // What a plan reckons with is whole minutes.
    const minute = Math.floor(context.at.getTime() / minuteMs) * minuteMs;
    const at = command.kind === 'claim' ? exactly : new Date(minute).toISOString();
    const { leaseSeconds } =
      command.kind === 'claim' ? await workSettings(tx, yardId) : { leaseSeconds: 0 };
    // Who could not tell it in time has from now on the time to tell the rest.
    const toldMs = (context.leaseFrom ?? context.at).getTime() - context.at.getTime();
    const acting: Acting = {
      task,
      at,
      exactly,
      by: memberId,
      isForeman,
      ids: { claim: randomUUID(), span: randomUUID() },
      leaseSeconds: leaseSeconds + toldMs / 1000,
      lapsed: life.claim === null ? last : null,
      override: null,
      pace: paceOf(state.yard, task),
      endOf: endOfWork(state.yard, task),
      nameOf: nameIn(state),
      timeZone: state.yard.timeZone,
    };
    const draft = act(life, command, acting);
    assertMay(place, command, draft.after, at);
    const { after, kind, reason } =
      command.kind === 'start' ? begun(place, command, acting, draft.after.claim) : draft;
    const payload = { at, before: life, after, reportId: context.reportId, undoes: null, reason };
    return { yardId, taskId: task.id, kind, payload, byMemberId: memberId };
  }

  /** The log comes last: from then on all who write to it wait. */
  async #written(
    tx: Tx,
    place: WorkPlace,
    reports: readonly WorkReport[],
    follows: Follows | null,
    precedes?: Follows,
  ): Promise<Claim | null> {
    const { before, after } = reports[reports.length - 1].payload;
    const made = after.claim;
    const wasOpen = before.claim?.id === made?.id && before.claim?.status === 'open';
    // Also where a start was taken back: the job of the claim has been and gone meanwhile.
    if (made?.status === 'open' && made.lapsesAt !== null && !wasOpen) {
      await this.#lapseAt(tx, place, new Date(made.lapsesAt));
    }
    const claim = made ?? before.claim;
    const shown = claim && (await shownClaim(tx, place, claim));
    await precedes?.(tx);
    for (const report of reports) await logWork(tx, report);
    await follows?.(tx);
    return shown;
  }

  async #lapseAt(tx: Tx, { state, task }: WorkPlace, startAfter: Date): Promise<void> {
    const job: ClaimLapseJob = { yardId: state.yard.id, taskId: task.id };
    await this.jobs.add(tx, claimLapseQueue.name, job, { startAfter });
  }
}

/** The open claim is over by now, and what is reported does not say that it was begun before. */
function lapsedBy(
  yardId: string,
  { task, life }: WorkPlace,
  { kind }: WorkCommand,
  { at }: ReportContext,
): WorkReport | null {
  const now = new Date().toISOString();
  if (!hasLapsed(life, now)) return null;
  if (kind === 'start' && !hasLapsed(life, at.toISOString())) return null;
  return lapseReport(yardId, task.id, life, now);
}

/** Begun as the service advises, or against it on the foreman's word. */
function begun(
  place: WorkPlace,
  command: Command<'start'>,
  acting: Acting,
  claim: ClaimLife | null,
): ReturnType<typeof act> {
  const { override } = command;
  if (override !== undefined && !acting.isForeman) {
    throw new DomainError('access.role', 'Only the foreman has work begun against the advice.');
  }
  const against = startAgainst(place, claim?.crew ?? [], acting.at, override);
  return act(place.life, command, { ...acting, override: against });
}

async function assertMeant(
  tx: Tx,
  yardId: string,
  last: ClaimLife | null,
  claimId: string | undefined,
): Promise<void> {
  if (claimId === undefined || last?.id === claimId) return;
  const where = { yardId_id: { yardId, id: claimId } };
  const { status } = await tx.claim.findUniqueOrThrow({ where });
  if (status === 'lapsed') throw new DomainError('claim.lapsed');
  throw new DomainError('claim.state', `The claim is ${status}: it holds the task no more.`);
}
