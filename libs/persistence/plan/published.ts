import type { PublishedPlan } from '#planning/compile/work/published.ts';
import type { Transaction } from '../client.ts';
import { isoOf } from '../rows.ts';

/** A start that differs by no more than this is what people have been told. */
const TOLERANCE_MINUTES = 15;

/** Who does what when by the plan that the yard works to; null where none is published. */
export async function loadPublished(
  tx: Transaction,
  yardId: string,
): Promise<PublishedPlan | null> {
  const row = await tx.publishedPlan.findUnique({ where: { yardId }, select: { planId: true } });
  if (row === null) return null;
  const placements = await tx.planPlacement.findMany({
    where: { yardId, planId: row.planId },
    orderBy: { activity: 'asc' },
    include: { crew: { orderBy: { position: 'asc' } } },
  });
  return {
    toleranceMinutes: TOLERANCE_MINUTES,
    tasks: placements.map(({ taskId, startAt, crew }) => ({
      task: taskId,
      start: isoOf(startAt),
      people: crew.map(({ memberId }) => memberId),
    })),
  };
}
