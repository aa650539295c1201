import { disturbanceOf } from '#live/disturbance/disturbance.ts';
import { disturbingKinds } from '#live/disturbance/kinds.ts';
import { overdueWords } from '#live/disturbance/overdue.ts';
import type { DisturbedYard } from '#live/disturbance/words.ts';
import type { PlanSheet } from '#planning/decode/sheet.ts';
import type { Transaction } from '../client.ts';
import type { YardState } from '../live/yard-state.ts';

/** What a plan was made for. */
interface Offered {
  readonly yardId: string;
  readonly basePlanId: string | null;
  readonly readEventId: bigint;
  readonly sheet: PlanSheet;
}

/** Of one look; most events of a yard at work go with its plan. */
const pageSize = 500;
/** More is as good as these: the plan does not know. */
const enough = 200;

/**
 * What a plan that was offered does not know, in sentences: that another one is published by now,
 * what has happened since it was made, what it should have been begun by now. Empty: it may be
 * published as it is. The state is that of the transaction.
 */
export async function sinceOffered(
  tx: Transaction,
  { yardId, basePlanId, readEventId, sheet }: Offered,
  state: Pick<YardState, 'yard' | 'workload' | 'planId'>,
  now: Date,
): Promise<string[]> {
  const { yard, workload } = state;
  const plans = [{ is: 'offered', sheet }] as const;
  return [
    ...(state.planId === basePlanId ? [] : ['Another plan was published.']),
    ...(await happenedSince(tx, yardId, readEventId, { yard, workload, plans })),
    ...overdueWords(yard, workload, sheet, now.toISOString()),
  ];
}

async function happenedSince(
  tx: Transaction,
  yardId: string,
  since: bigint,
  disturbed: DisturbedYard,
): Promise<ReadonlySet<string>> {
  const words = new Set<string>();
  for (let after = since; ;) {
    const events = await tx.event.findMany({
      where: { yardId, id: { gt: after }, kind: { in: [...disturbingKinds] } },
      orderBy: { id: 'asc' },
      take: pageSize,
    });
    for (const event of events) {
      const disturbance = disturbanceOf(event, disturbed);
      if (disturbance !== null) words.add(disturbance.words);
    }
    const last = events.at(-1);
    if (last === undefined || events.length < pageSize || words.size >= enough) return words;
    after = last.id;
  }
}
