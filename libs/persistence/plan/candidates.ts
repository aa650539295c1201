import { z } from 'zod';
import type { Transaction } from '../client.ts';
import type { Candidate } from '../generated/client.ts';
import { asJson } from '../rows.ts';

const candidateSubject = 'candidate';

export const candidateStateSchema = z.enum(['open', 'published', 'discarded', 'superseded']);

/** What happened, in words: the column of a run and of its candidate. */
export const causeSchema = z.array(z.string());

interface NewCandidate {
  readonly yardId: string;
  readonly planId: string;
  readonly basePlanId: string;
  readonly readEventId: bigint;
  readonly moved: number;
  readonly disturbance: number;
  readonly cause: readonly string[];
}

const openOnes = (yardId: string) => ({ yardId, state: 'open' });

/** The one that waits to be decided. */
export function openCandidate(tx: Transaction, yardId: string): Promise<Candidate | null> {
  return tx.candidate.findFirst({ where: openOnes(yardId) });
}

/** Offers a plan to the foreman in place of what was offered before. Its event is the caller's. */
export async function offerCandidate(
  tx: Transaction,
  { cause, ...candidate }: NewCandidate,
): Promise<void> {
  await withdrawCandidate(tx, candidate.yardId);
  await tx.candidate.create({ data: { ...candidate, cause: asJson(cause) } });
}

/** What was offered is not needed any more. */
export async function withdrawCandidate(tx: Transaction, yardId: string): Promise<void> {
  await tx.candidate.updateMany({
    where: openOnes(yardId),
    data: { state: 'superseded', decidedAt: new Date() },
  });
}

/** The candidate was looked at with all up to that event, and stands. */
export async function confirmCandidate(
  tx: Transaction,
  { yardId, planId }: Pick<Candidate, 'yardId' | 'planId'>,
  readEventId: bigint,
): Promise<void> {
  await tx.candidate.updateMany({
    where: { ...openOnes(yardId), planId, readEventId: { lt: readEventId } },
    data: { readEventId },
  });
}

/** Once a plan is published, what was offered is decided: that plan, or another one. */
export async function settleCandidates(
  tx: Transaction,
  {
    yardId,
    planId,
    memberId,
    at,
  }: { yardId: string; planId: string; memberId: string | null; at: Date },
): Promise<void> {
  await tx.candidate.updateMany({
    where: { ...openOnes(yardId), planId },
    data: { state: 'published', decidedById: memberId, decidedAt: at },
  });
  await tx.candidate.updateMany({
    where: openOnes(yardId),
    data: { state: 'superseded', decidedAt: at },
  });
}

export async function appendCandidateEvent(
  tx: Transaction,
  event: {
    readonly yardId: string;
    readonly planId: string;
    readonly kind: 'candidate-made' | 'candidate-discarded';
    readonly memberId: string | null;
    readonly payload?: object;
  },
): Promise<void> {
  const { yardId, planId, kind, memberId, payload = {} } = event;
  await tx.event.create({
    data: {
      yardId,
      byMemberId: memberId,
      kind,
      subject: candidateSubject,
      subjectId: planId,
      payload: asJson(payload),
    },
  });
}
