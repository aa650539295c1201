import type { PlacedTask } from '#live/disturbance/replant.ts';
import { TOLERANCE_MINUTES } from '#live/disturbance/tolerance.ts';
import type { PublishedPlan } from '#planning/compile/work/published.ts';
import type { Transaction } from '../client.ts';
import { loadPlaced } from './placed.ts';

/** Who does what when by a plan, as people have been told. */
export const toldBy = (placed: readonly PlacedTask[]): PublishedPlan => ({
  toleranceMinutes: TOLERANCE_MINUTES,
  tasks: placed.map(({ task, start, people }) => ({
    task,
    start,
    people: people.map(({ person }) => person),
  })),
});

/** Who does what when by the plan that the yard works to; null where none is published. */
export async function loadPublished(
  tx: Transaction,
  yardId: string,
): Promise<PublishedPlan | null> {
  const row = await tx.publishedPlan.findUnique({ where: { yardId }, select: { planId: true } });
  return row === null ? null : toldBy(await loadPlaced(tx, yardId, row.planId));
}
