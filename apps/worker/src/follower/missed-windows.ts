import { randomUUID } from 'node:crypto';
import { z } from 'zod';
import { hasLapsed } from '#live/life/claiming.ts';
import { judgeLate, otherWayWords } from '#live/rework/judge-late.ts';
import { shutWindows, type Late } from '#live/rework/shut.ts';
import type { Transaction } from '#persistence/client.ts';
import { prepareLate } from '#persistence/live/prepare-late.ts';
import { hasWithdrawn } from '#persistence/live/reworks.ts';
import type { YardState } from '#persistence/live/yard-state.ts';
import { lockWork } from '#persistence/workload/store.ts';
import { standing } from '#planning/decode/ready/standing.ts';
import type { FollowerStep } from './following.ts';

/** Payload of `window-missed`. */
const missedSchema = z.object({
  linkIds: z.array(z.string()),
  /** Nothing could be prepared, so somebody has to say how it goes on. */
  toDecide: z.boolean().default(false),
});

/** Only of such events nothing follows for any window. */
const beside: ReadonlySet<string> = new Set([
  'plan-run',
  'candidate',
  'proposal',
  'calendar',
  'snag',
  'photo',
  'report',
]);

function lateIn({ yard, workload, sheet, lives }: YardState, now: Date) {
  const stand = standing({ yard, workload, sheet, now: now.toISOString() });
  const inHand = (taskId: string): boolean => (lives.get(taskId)?.claim ?? null) !== null;
  return shutWindows(workload, stand.windows(), inHand, now);
}

/**
 * A window that has shut before the next was begun: the preparation that it now needs is added to the
 * work, once, and the log says so. Where the work can still be done another way, the log says which; where
 * no preparation can be worked out for a task, it says why, and the others have theirs. Work that is going
 * on is left alone.
 */
export const missedWindows: FollowerStep = async ({ tx, yardId, now, events, states }) => {
  if (events.length > 0 && events.every(({ subject }) => beside.has(subject))) return;
  const before = await states.at(tx, yardId);
  const seen = lateIn(before, now);
  if (seen.late.length === 0 && (await untold(tx, yardId, seen.otherWays)).length === 0) return;
  // Somebody may have begun it in the meantime: judged again, where so, once nobody can.
  await lockWork(tx, yardId);
  const state = await states.at(tx, yardId);
  const { late, otherWays } = state === before ? seen : lateIn(state, now);
  const told: Tell[] = [];
  let { workload } = state;
  for (const one of late) {
    if (await isToldLate(tx, state, one, now)) continue;
    const reworkId = randomUUID();
    const { made, why } = judgeLate({ yard: state.yard, workload, late: one, reworkId });
    if (made === null) {
      for (const { task, linkIds } of await untold(tx, yardId, [one], true))
        told.push(() => tellMissed(tx, yardId, task.id, { linkIds, words: why, toDecide: true }));
      continue;
    }
    const preparing = { yardId, taskId: one.task.id, reworkId, made, before: workload };
    const after = await prepareLate(tx, preparing);
    ({ workload } = after);
    told.push(after.tell);
  }
  for (const { task, linkIds, ways } of await untold(tx, yardId, otherWays)) {
    const words = otherWayWords(state.yard, task, ways);
    told.push(() => tellMissed(tx, yardId, task.id, { linkIds, words }));
  }
  // Events are the last writes.
  for (const tell of told) await tell();
};

type Tell = () => Promise<void>;

/**
 * A preparation was withdrawn for the claim that has it in hand: it had been taken in time, and the
 * rest of what was done in a dead spot is still to be told, or the claim lapses.
 */
async function isToldLate(
  tx: Transaction,
  { yard, lives }: YardState,
  { task }: Late,
  now: Date,
): Promise<boolean> {
  const claim = lives.get(task.id)?.claim ?? null;
  if (claim === null || hasLapsed({ claim }, now.toISOString())) return false;
  return hasWithdrawn(tx, yard.id, task.id, new Date(claim.claimedAt));
}

/** Of the same links it is said once; `toDecide`: that nothing could be prepared. */
async function untold<T extends Late>(
  tx: Transaction,
  yardId: string,
  missed: readonly T[],
  toDecide = false,
): Promise<T[]> {
  if (missed.length === 0) return [];
  const events = await tx.event.findMany({
    where: {
      yardId,
      kind: 'window-missed',
      subject: 'task',
      subjectId: { in: missed.map(({ task }) => task.id) },
    },
    select: { payload: true },
  });
  const said = new Set(
    events
      .map(({ payload }) => missedSchema.parse(payload))
      .flatMap((event) => (event.toDecide === toDecide ? event.linkIds : [])),
  );
  return missed.filter(({ linkIds }) => linkIds.some((id) => !said.has(id)));
}

interface Missed {
  readonly linkIds: readonly string[];
  readonly words: string;
  readonly toDecide?: true;
}

async function tellMissed(
  tx: Transaction,
  yardId: string,
  taskId: string,
  { linkIds, ...payload }: Missed,
): Promise<void> {
  await tx.event.create({
    data: {
      yardId,
      byMemberId: null,
      kind: 'window-missed',
      subject: 'task',
      subjectId: taskId,
      payload: { linkIds: [...linkIds], ...payload },
    },
    select: { id: true },
  });
}
