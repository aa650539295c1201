import type { TaskLife } from './life.ts';

/**
 * How a task stands for whoever looks for work. `opens`: it waits for a moment that is known.
 * `claimed`: somebody has taken it and not begun. What is put aside and held by nobody is `paused`
 * until it may go on, and then `ready`.
 */
export const taskStandings = [
  'waiting',
  'opens',
  'ready',
  'claimed',
  'working',
  'paused',
  'done',
  'redo',
] as const;
export type TaskStanding = (typeof taskStandings)[number];

/** What keeps a task from beginning; null: nothing does. `opens`: until when, where that is known. */
export type Hindrance = { readonly opens: object | null } | null;

/** The finer state; `whyNot` is asked only of what could be begun. */
export function standsAs(life: TaskLife, whyNot: () => Hindrance): TaskStanding {
  const { state, claim } = life;
  if (state === 'done' || state === 'redo') return state;
  if (state === 'dropped') return 'done';
  if (claim?.status === 'working') return 'working';
  if (claim?.status === 'paused') return 'paused';
  if (claim?.status === 'open') return 'claimed';
  if (state === 'working') return 'working';
  const why = whyNot();
  if (why === null) return 'ready';
  if (state === 'paused') return 'paused';
  return why.opens === null ? 'waiting' : 'opens';
}
