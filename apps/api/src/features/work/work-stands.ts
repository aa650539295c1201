import { untouched } from '#live/life/life.ts';
import { standsAs } from '#live/life/stands.ts';
import { stillOpen } from '#persistence/live/given-up.ts';
import type { YardState } from '#persistence/live/yard-state.ts';
import { standing } from '#planning/decode/ready/standing.ts';
import type { StandsOf } from './tasks.store.ts';

/** How tasks stand at a moment. What holds a task that has begun back is not asked any more. */
export function standsIn(state: YardState, now: Date): StandsOf {
  const stand = standing({ ...state, stillOpen: stillOpen(state), now: now.toISOString() });
  return (taskId) => {
    const life = state.lives.get(taskId) ?? untouched();
    const stands = standsAs(life, () => stand.whyNot(taskId));
    const isToBegin = life.state === 'waiting' || life.state === 'paused';
    const why = isToBegin ? stand.whyNot(taskId) : null;
    return { stands, opensAt: why?.opens?.at ?? null, why: why?.why ?? null };
  };
}
