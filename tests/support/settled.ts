import type { TestDatabase } from './database.ts';
import { until } from './until.ts';

/**
 * No run for what happened waits or is under way in the yard, and its log has been followed to the end: all
 * of one moment, since a run may be asked for between two looks.
 */
export const settled = ({ owner }: Pick<TestDatabase, 'owner'>, yardId: string): Promise<void> =>
  until(async () => {
    const [pending, cursor, last] = await owner.$transaction(
      [
        owner.planRun.count({
          where: { yardId, purpose: 'disturbance', status: { in: ['queued', 'running'] } },
        }),
        owner.logCursor.findUnique({ where: { yardId } }),
        owner.event.aggregate({ where: { yardId }, _max: { id: true } }),
      ],
      { isolationLevel: 'RepeatableRead' },
    );
    return pending === 0 && cursor?.eventId === last._max.id;
  }, 60_000);
