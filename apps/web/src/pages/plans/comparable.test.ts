import { expect, it } from 'vitest';
import { type Costed, notComparable } from './comparable.ts';

const plan = (
  tasks: Readonly<Record<string, Costed['tasks'][number]['state']>>,
  branch: string | null = 'roll',
): Costed => ({
  tasks: Object.entries(tasks).map(([id, state]) => ({ id, state })),
  choices: branch === null ? [] : [{ id: 'how', branch }],
});
const before = plan({ sand: 'waiting', coat: 'waiting' });

it('lets plans of the same work be held against each other, whatever way they take', () => {
  expect(notComparable(plan({ coat: 'waiting', sand: 'waiting' }), before)).toBeNull();
  expect(notComparable(plan({ sand: 'waiting', spray: 'waiting' }, 'spray'), before)).toBeNull();
});

it('says of others that work was begun between them, or that other work is to be done', () => {
  expect(notComparable(plan({ sand: 'done', coat: 'waiting' }), before)).toBe('begun');
  expect(notComparable(plan({ sand: 'waiting', coat: 'paused' }), before)).toBe('begun');
  expect(notComparable(plan({ sand: 'waiting' }), before)).toBe('work');
  expect(notComparable(plan({ sand: 'waiting', coat: 'waiting', wax: 'waiting' }), before)).toBe(
    'work',
  );
  expect(notComparable(plan({ sand: 'waiting', coat: 'waiting' }, null), before)).toBe('work');
});
