import type { AlarmsInput } from '#live/alarms/site.ts';
import type { Transaction } from '#persistence/client.ts';
import { publishedAt } from '#persistence/live/alarms.ts';
import type { YardState } from '#persistence/live/yard-state.ts';
import { standing } from '#planning/decode/ready/standing.ts';

/** The yard at a moment, as alarms ask for it. */
export async function alarmsInput(
  tx: Transaction,
  yardId: string,
  { yard, workload, sheet, lives }: YardState,
  now: Date,
): Promise<AlarmsInput> {
  const standAt = (at: Date) => standing({ yard, workload, sheet, now: at.toISOString() });
  const stand = standAt(now);
  return {
    ...{ yard, workload, sheet, lives, added: [], now },
    publishedAt: await publishedAt(tx, yardId),
    windows: stand.windows(),
    whyNot: (taskId, at) => (at === undefined ? stand : standAt(at)).whyNot(taskId),
  };
}
