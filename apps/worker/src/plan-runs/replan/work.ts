import type { PgBoss } from 'pg-boss';
import type { PlanRunJob } from '#persistence/queue/plan-runs.ts';
import { replanQueue } from '#persistence/queue/replans.ts';
import { handleReplan, type ReplanSurroundings } from './handle-replan.ts';

/** A notice that is lost must not cost more than that. */
const pollSeconds = 0.5;
/** Of several yards, beside the runs that somebody asked for; and one that waits for another to end. */
const atOnce = 2;

/** Takes runs for what happened from their queue. */
export async function workOnReplans(boss: PgBoss, surroundings: ReplanSurroundings): Promise<void> {
  await boss.work<PlanRunJob>(
    replanQueue.name,
    {
      pollingIntervalSeconds: pollSeconds,
      notifyPollingIntervalSeconds: pollSeconds,
      heartbeatRefreshSeconds: 3,
      localConcurrency: atOnce,
    },
    async ([job]) => handleReplan(surroundings, job),
  );
}
