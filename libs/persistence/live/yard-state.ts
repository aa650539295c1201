import type { TaskLife } from '#live/life/life.ts';
import type { PlanSheet } from '#planning/decode/sheet.ts';
import type { Workload } from '#planning/workload/workload.ts';
import type { Yard } from '#planning/yard/yard.ts';
import type { Transaction } from '../client.ts';
import { readSheet } from '../plan/sheet.ts';
import { loadWorkload } from '../workload/store.ts';
import { loadYard } from '../yard/store.ts';
import { loadGivenUp, type GivenUp } from './given-up.ts';
import { loadLives } from './load-lives.ts';

/** A yard as it was right after one event of its log. Never changed: a later state is another object. */
export interface YardState {
  /** 0 of a yard in which nothing has happened. */
  readonly eventId: bigint;
  readonly yard: Yard;
  readonly workload: Workload;
  /** Of the published plan; null where none is. */
  readonly sheet: PlanSheet | null;
  readonly planId: string | null;
  /** Of tasks that somebody has touched, by task. */
  readonly lives: ReadonlyMap<string, TaskLife>;
  /** Windows that were given up and, when the work was read, had not shut. */
  readonly givenUp: readonly GivenUp[];
}

/** What of a state has to be read anew. */
export interface Stale {
  readonly yard: boolean;
  readonly work: boolean;
  readonly plan: boolean;
}

export const everything: Stale = { yard: true, work: true, plan: true };

async function plannedBy(
  tx: Transaction,
  yardId: string,
  known: YardState | null,
): Promise<Pick<YardState, 'sheet' | 'planId'>> {
  const row = await tx.publishedPlan.findUnique({ where: { yardId }, select: { planId: true } });
  if (row === null) return { sheet: null, planId: null };
  const { planId } = row;
  // Plans are never changed.
  if (known?.planId === planId) return { sheet: known.sheet, planId };
  const { sheet } = await tx.plan.findUniqueOrThrow({
    where: { yardId_id: { yardId, id: planId } },
    select: { sheet: true },
  });
  return { sheet: readSheet(sheet), planId };
}

export async function lastEventId(tx: Transaction, yardId: string): Promise<bigint> {
  const { _max } = await tx.event.aggregate({ where: { yardId }, _max: { id: true } });
  return _max.id ?? 0n;
}

/**
 * The state as the database has it. What is not stale is taken from `known`; all of it is read in
 * a transaction with one snapshot, or while nothing else is committed in the yard.
 * Throws `record.missing`.
 */
export async function loadState(
  tx: Transaction,
  yardId: string,
  known: YardState | null,
  stale: Stale,
): Promise<YardState> {
  const eventId = await lastEventId(tx, yardId);
  const yard = known === null || stale.yard ? await loadYard(tx, yardId) : known.yard;
  const plan = known === null || stale.plan ? await plannedBy(tx, yardId, known) : known;
  const { sheet, planId } = plan;
  if (known !== null && !stale.work) {
    const { workload, lives, givenUp } = known;
    return { eventId, yard, workload, sheet, planId, lives, givenUp };
  }
  const workload = await loadWorkload(tx, yardId);
  const lives = await loadLives(tx, yardId);
  const givenUp = await loadGivenUp(tx, yardId, new Date());
  return { eventId, yard, workload, sheet, planId, lives, givenUp };
}
