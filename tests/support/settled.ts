import type { TestDatabase } from './database.ts';
import { until } from './until.ts';

/** No run for what happened waits or is under way in the yard, and its log has been followed to the end. */
export const settled = ({ owner }: Pick<TestDatabase, 'owner'>, yardId: string): Promise<void> =>
  until(async () => {
    const pending = await owner.planRun.count({
      where: { yardId, purpose: 'disturbance', status: { in: ['queued', 'running'] } },
    });
    const cursor = await owner.logCursor.findUnique({ where: { yardId } });
    const last = await owner.event.aggregate({ where: { yardId }, _max: { id: true } });
    return pending === 0 && cursor?.eventId === last._max.id;
  }, 60_000);
