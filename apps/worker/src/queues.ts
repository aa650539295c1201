import { alarmQueue, pushQueue } from '#persistence/queue/alarms.ts';
import { claimLapseQueue } from '#persistence/queue/claim-lapse.ts';
import { planRunQueue } from '#persistence/queue/plan-runs.ts';
import { replanQueue } from '#persistence/queue/replans.ts';
import { priceQueue } from '#persistence/queue/price.ts';

/** All that this worker takes jobs from. */
export const queues = [
  priceQueue.name,
  priceQueue.givenUp,
  planRunQueue.name,
  planRunQueue.givenUp,
  replanQueue.name,
  claimLapseQueue.name,
  alarmQueue.name,
  pushQueue.name,
] as const;
