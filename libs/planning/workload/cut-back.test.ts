import { describe, expect, it } from 'vitest';
import { smallYard } from '../testing/small-yard.ts';
import { partSurface } from '../questions/part-surface.ts';
import { CUT_BACK } from './cut-back.ts';
import { makeWorkload } from './make.ts';
import type { Task, Workload } from './workload.ts';

const over = (state: 'done' | 'redo', from: string, until: string): Partial<Task> => ({
  state,
  startedAt: `2026-11-${from}:00Z`,
  finishedAt: `2026-11-${until}:00Z`,
});

/** Two coats, the second one bad, and perhaps the work that takes it off. */
function lived(cut: Partial<Task> | null): Workload {
  const made = makeWorkload(smallYard());
  const states: Record<string, Partial<Task>> = {
    'lid.one': over('done', '02T08:00', '02T09:00'),
    'lid.two': over('redo', '02T12:00', '02T13:00'),
  };
  const tasks = made.tasks.map((task) => ({ ...task, ...states[task.id] }));
  const [sand] = tasks;
  const prepares = [{ kind: 'abrade' as const, grit: 40, mm: null, passes: 1 }];
  const added = { ...sand, id: 'lid.two.cut', stepId: CUT_BACK, rework: 'a-rework', prepares };
  return { ...made, tasks: cut === null ? tasks : [...tasks, { ...added, ...cut }] };
}

const seen = (workload: Workload) =>
  partSurface(smallYard(), workload, { part: 'lid', now: '2026-11-04T08:00:00Z', next: 'epoxy' });

describe('a film that is done again', () => {
  const laidAgo = 2 * 1440 - 5 * 60;

  it('is on the part until it is cut back', () => {
    expect(seen(lived(null))?.ageMinutes).toBe(laidAgo);
    expect(seen(lived({ state: 'waiting' }))?.ageMinutes).toBe(laidAgo);
  });

  it('is gone then, and what was below it is ground', () => {
    const surface = seen(lived(over('done', '03T08:00', '03T09:00')));
    expect(surface?.ageMinutes).toBe(2 * 1440 - 60);
    expect(surface?.done.map(({ kind, grit }) => [kind, grit])).toEqual([['abrade', 40]]);
  });

  it('is not gone by a step of the yard that is called so', () => {
    const own = { ...over('done', '03T08:00', '03T09:00'), rework: null };
    expect(seen(lived(own))?.ageMinutes).toBe(laidAgo);
  });
});
