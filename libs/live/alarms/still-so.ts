import type { Workload } from '#planning/workload/workload.ts';
import type { TaskLife } from '../life/life.ts';
import type { AlarmFacts } from './facts.ts';

interface Armed {
  readonly key: string;
  readonly taskId: string | null;
}

interface State {
  readonly workload: Workload;
  readonly lives: ReadonlyMap<string, TaskLife>;
}

/**
 * Whether the task is still in the state that the alarm was armed for: a window is of no interest
 * to whoever has begun, nor a lease to whoever has given the claim back, however late it is noticed.
 */
export function isStillSo(
  { kind }: AlarmFacts,
  { key, taskId }: Armed,
  { workload, lives }: State,
): boolean {
  if (taskId === null) return true;
  const state = workload.tasks.find(({ id }) => id === taskId)?.state;
  switch (kind) {
    case 'opens':
    case 'closes':
    case 'missed':
    case 'unbegun':
      return state === 'waiting';
    case 'pot-life':
    case 'overrun':
      return state === 'working';
    case 'too-cold':
      return state === 'working' || state === 'done';
    case 'lapses': {
      const claim = lives.get(taskId)?.claim ?? null;
      return claim?.status === 'open' && key === lapsesKey(claim.id);
    }
  }
}

export const lapsesKey = (claimId: string): string => `lapses:${claimId}`;
