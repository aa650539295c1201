import { disturbanceOf } from '#live/disturbance/disturbance.ts';
import { reasonOf } from '#live/disturbance/kinds.ts';
import type { HeldAgainst } from '#live/disturbance/off-plan.ts';
import type { Transaction } from '#persistence/client.ts';
import { openCandidate } from '#persistence/plan/candidates.ts';
import { readSheet } from '#persistence/plan/sheet.ts';
import { readByNow, requestReplan } from '#persistence/run/replans.ts';
import { enqueueReplan } from '../plan-runs/replan/settle-replan.ts';
import type { FollowerStep } from './following.ts';

/** Asks for a plan that knows what has happened, where that is otherwise than people were told. */
export const replan: FollowerStep = async ({ tx, yardId, now, events, states, boss }) => {
  const disturbing = events.filter(({ kind }) => reasonOf(kind) !== null);
  if (disturbing.length === 0) return;
  const { yard, workload, sheet, planId } = await states.at(tx, yardId);
  if (sheet === null || planId === null) return;
  const known = await readByNow(tx, yardId);
  const fresh = disturbing.filter(({ id }) => id > known);
  if (fresh.length === 0) return;
  const plans = [{ is: 'published', sheet } as const, ...(await offered(tx, yardId, planId))];
  const cause = fresh.flatMap(
    (event) => disturbanceOf(event, { yard, workload, plans })?.words ?? [],
  );
  if (cause.length === 0) return;
  await requestReplan(tx, { yardId, cause, requestedById: null, now }, enqueueReplan(boss, tx));
};

/** What happens must go with what the foreman is looking at, too. */
async function offered(
  tx: Transaction,
  yardId: string,
  basePlanId: string,
): Promise<HeldAgainst[]> {
  const open = await openCandidate(tx, yardId);
  if (open?.basePlanId !== basePlanId) return [];
  const plan = await tx.plan.findUnique({
    where: { yardId_id: { yardId, id: open.planId } },
    select: { sheet: true },
  });
  return plan === null ? [] : [{ is: 'offered', sheet: readSheet(plan.sheet) }];
}
