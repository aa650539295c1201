import { planRunQueue } from './plan-runs.ts';

/**
 * Runs for what happened in a yard (`PlanRunJob`): apart from those that somebody asked for, since
 * nobody may wait for them behind a search of an hour. A job that goes in wakes the workers.
 */
export const replanQueue = {
  name: 'replan',
  notify: true,
  heartbeatSeconds: planRunQueue.heartbeatSeconds,
  retryLimit: planRunQueue.retryLimit,
  retryDelay: planRunQueue.retryDelay,
  expireInSeconds: 900,
  deleteAfterSeconds: planRunQueue.deleteAfterSeconds,
} as const;

/** Which queue a run's job is in. */
export const queueOf = ({ purpose }: { readonly purpose: string }): string =>
  purpose === 'disturbance' ? replanQueue.name : planRunQueue.name;
