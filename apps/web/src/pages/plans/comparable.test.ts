import { expect, it } from 'vitest';
import { type Costed, notComparable } from './comparable.ts';

type State = Costed['tasks'][number]['state'];

/** Steps of one job by name; `hull.wax` is of another, `coat.again` of a rework of the same. */
const plan = (steps: Readonly<Record<string, State>>, branch: string | null = 'roll'): Costed => ({
  tasks: Object.entries(steps).map(([step, state]) => ({
    id: step.includes('hull.') ? step : `deck.${step}`,
    jobId: step.includes('hull.') ? 'hull' : 'deck',
    stepId: step.replace('hull.', '').replace('.again', ''),
    state,
  })),
  choices: branch === null ? [] : [{ id: 'deck.how', branch }],
});
const before = plan({ sand: 'waiting', coat: 'waiting' });

it('lets plans of the same work be held against each other, whatever way they take', () => {
  expect(notComparable(plan({ coat: 'waiting', sand: 'waiting' }), before)).toBeNull();
  expect(notComparable(plan({ sand: 'waiting', spray: 'waiting' }, 'spray'), before)).toBeNull();
  const working = plan({ sand: 'working', coat: 'waiting' });
  expect(notComparable(plan({ sand: 'done', coat: 'waiting' }), working)).toBeNull();
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

it('does not know what was left of work that is put aside', () => {
  const paused = plan({ sand: 'paused', coat: 'waiting' });
  const working = plan({ sand: 'working', coat: 'waiting' });
  expect(notComparable(paused, working)).toBe('paused');
  expect(notComparable(working, paused)).toBe('paused');
  expect(notComparable(paused, paused)).toBe('paused');
});

it('looks for other work beside a choice that is another', () => {
  const spray = { sand: 'waiting', spray: 'waiting' } as const;
  expect(notComparable(plan({ ...spray, 'hull.wax': 'waiting' }, 'spray'), before)).toBe('work');
  expect(notComparable(plan({ ...spray, 'coat.again': 'waiting' }, 'spray'), before)).toBe('work');
});
