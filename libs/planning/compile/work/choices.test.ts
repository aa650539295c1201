import { expect, it } from 'vitest';
import { smallYard } from '../../testing/small-yard.ts';
import { makeWorkload } from '../../workload/make.ts';
import type { TaskLink, Workload } from '../../workload/workload.ts';
import { standingOf } from './choices.ts';

/** Sanding is done, and something else of the choice was to come before it. */
function sandedAfterKey(setBy: TaskLink['setBy']): Workload {
  const made = makeWorkload(smallYard());
  const link: TaskLink = {
    id: 'key-before-sand',
    from: 'lid.key',
    to: 'lid.sand',
    opens: { kind: 'after', minutes: 0 },
    closes: null,
    sweep: 'unknown',
    setBy,
  };
  return {
    ...made,
    tasks: made.tasks.map((task) => (task.id === 'lid.sand' ? { ...task, state: 'done' } : task)),
    links: [...made.links, link],
  };
}

it('is decided for the idle branch by work beyond it', () => {
  const { open, decided, dropped } = standingOf(sandedAfterKey('job'));
  expect(open).toEqual([]);
  expect(decided.map(({ choice, branch }) => [choice.id, branch])).toEqual([['lid.next', 0]]);
  expect([...dropped]).toEqual(['lid.key']);
});

it('stays open where only the foreman’s order led to what has begun', () => {
  const { open, dropped } = standingOf(sandedAfterKey('foreman'));
  expect(open.map(({ id }) => id)).toEqual(['lid.next']);
  expect([...dropped]).toEqual([]);
});
