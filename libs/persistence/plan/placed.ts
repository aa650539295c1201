import type { PlacedTask } from '#live/disturbance/replant.ts';
import type { Transaction } from '../client.ts';
import { isoOf } from '../rows.ts';

/** Where a plan has its tasks, by activity. */
export async function loadPlaced(
  tx: Transaction,
  yardId: string,
  planId: string,
): Promise<PlacedTask[]> {
  const placements = await tx.planPlacement.findMany({
    where: { yardId, planId },
    orderBy: { activity: 'asc' },
    include: { crew: { orderBy: { position: 'asc' } } },
  });
  return placements.map((placed) => ({
    task: placed.taskId,
    start: isoOf(placed.startAt),
    finish: isoOf(placed.finishAt),
    segments: placed.segmentStarts.map((start, k) => ({
      start: isoOf(start),
      end: isoOf(placed.segmentEnds[k]),
    })),
    people: placed.crew.map(({ memberId, demand }) => ({ person: memberId, demand })),
    overtime: placed.overtime,
    slot: placed.slot,
  }));
}
