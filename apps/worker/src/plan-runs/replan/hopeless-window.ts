import { randomUUID } from 'node:crypto';
import { judgeLate } from '#live/rework/judge-late.ts';
import type { Reworked } from '#live/rework/rework.ts';
import { type Late, shutWindows } from '#live/rework/shut.ts';
import type { Transaction } from '#persistence/client.ts';
import { prepareLate } from '#persistence/live/prepare-late.ts';
import type { YardState } from '#persistence/live/yard-state.ts';
import { standing } from '#planning/decode/ready/standing.ts';

/** A window that could be given up, and what would have to be done instead. */
interface Loss {
  readonly late: Late;
  readonly reworkId: string;
  readonly made: Reworked;
  /** Whoever begins until then needs no preparation; epoch milliseconds. */
  readonly until: number;
}

const workOf = ({ made }: Loss): number =>
  made.edits.addTasks.reduce((sum, { workMinutes }) => sum + workMinutes, 0);

/** What costs the least work first; of equals what shuts last, for somebody may be near the other. */
const cheapestFirst = (a: Loss, b: Loss): number => workOf(a) - workOf(b) || b.until - a.until;

/** Not what somebody has in hand, what can be done another way, or what nothing can be prepared for. */
function lossesOf(state: YardState, linkIds: readonly string[], now: Date): Loss[] {
  const { yard, workload, sheet, lives } = state;
  const hopeless = new Set(linkIds);
  const windows = standing({ yard, workload, sheet, now: now.toISOString() })
    .windows()
    .filter(({ linkId }) => hopeless.has(linkId));
  const inHand = (taskId: string): boolean => (lives.get(taskId)?.claim ?? null) !== null;
  return shutWindows(workload, windows, inHand, now, hopeless).late.flatMap((late) => {
    const reworkId = randomUUID();
    const { made } = judgeLate({ yard, workload, late, reworkId, ahead: true });
    const shut = windows.flatMap(({ linkId, startBy, closesAt }) => {
      const by = startBy ?? closesAt;
      return late.linkIds.includes(linkId) && by !== null ? [Date.parse(by)] : [];
    });
    const until = Math.min(...shut);
    return made === null || shut.length === 0 ? [] : [{ late, reworkId, made, until }];
  });
}

/**
 * Where it was proved that no plan keeps all of some windows, the preparation that one of them will need is
 * added to the work now, not when it has shut: the next plan counts with it. It is dated to when the work has to
 * be begun at the latest, so that whoever takes it in hand before that takes the preparation back. The
 * caller holds `lockWork`; what is returned tells it, as one of the last writes. Null: there was none to
 * give up.
 */
export async function giveUpWindow(
  tx: Transaction,
  state: YardState,
  linkIds: readonly string[],
  now: Date,
): Promise<(() => Promise<void>) | null> {
  const loss = lossesOf(state, linkIds, now).sort(cheapestFirst).at(0);
  if (loss === undefined) return null;
  const { late, reworkId, made, until } = loss;
  const { tell } = await prepareLate(tx, {
    ...{ yardId: state.yard.id, taskId: late.task.id, reworkId, made },
    before: state.workload,
    madeAt: new Date(until),
  });
  return tell;
}
