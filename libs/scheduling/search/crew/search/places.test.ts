import { describe, expect, it } from 'vitest';
import { check } from '../../../checker/check.ts';
import type { OpenSurface, Problem, Space } from '../../../model/problem.ts';
import { activity, lag, mode, problem } from '../../../testing/make.ts';
import { at, bestOf } from '../testing/best.ts';

const space = (id: string, dustReaches: Space['dustReaches'] = [], settling = 0): Space => ({
  id,
  dustReaches,
  settling,
  source: '',
});
const SHOP = 0;
const STORE = 1;
const hatch = { id: 'hatch', space: SHOP, source: '' };
const onHatch = { parts: [0] };

function starts(of: Problem): number[] {
  const plan = bestOf(of);
  expect(check(of, plan)).toEqual([]);
  return of.activities.map((_, a) => at(plan, a).start);
}

describe('parts', () => {
  it('are worked on by one activity at a time', () => {
    const of = problem({
      spaces: [space('shop')],
      parts: [hatch],
      activities: ['a', 'b'].map((id) => activity(id, [mode({ duration: 20 })], onHatch)),
    });
    expect(starts(of).sort((x, y) => x - y)).toEqual([0, 20]);
  });

  it('are worked on where they are, before or after they are moved', () => {
    const of = problem({
      spaces: [space('shop'), space('store')],
      parts: [hatch],
      activities: [
        activity('fit', [mode({ duration: 20, space: STORE })], onHatch),
        activity('carry', [mode({ duration: 5, space: SHOP, movesTo: STORE })], onHatch),
        activity('sand', [mode({ duration: 30, space: SHOP })], onHatch),
      ],
    });
    expect(starts(of)).toEqual([35, 30, 0]);
  });

  it('come back for work that follows', () => {
    const of = problem({
      spaces: [space('shop'), space('store')],
      parts: [hatch],
      activities: [
        activity('finish', [mode({ duration: 20, space: SHOP })], onHatch),
        activity('out', [mode({ duration: 5, space: SHOP, movesTo: STORE })], onHatch),
        activity('paint', [mode({ duration: 30, space: STORE })], onHatch),
        activity('back', [mode({ duration: 5, space: STORE, movesTo: SHOP })], onHatch),
      ],
      lags: [lag(2, 0, 0)],
    });
    expect(starts(of)).toEqual([40, 0, 5, 35]);
  });

  it.each([
    ['when it follows what is done elsewhere', [lag(2, 0, 0)]],
    ['when only the moment says so', []],
  ])('come back in time for what the foreman has set, %s', (_, lags) => {
    const of = problem({
      // Out and back have to be over before the foreman's moment: nobody may lift afterwards.
      horizon: 320,
      spaces: [space('shop'), space('store')],
      parts: [hatch],
      activities: [
        activity('fit', [mode({ duration: 20, space: SHOP })], {
          ...onHatch,
          fixed: { kind: 'set', start: 300, finish: null, builders: null },
        }),
        activity('out', [mode({ duration: 5, space: SHOP, movesTo: STORE })], onHatch),
        activity('paint', [mode({ duration: 30, space: STORE })], onHatch),
        activity('back', [mode({ duration: 5, space: STORE, movesTo: SHOP })], onHatch),
      ],
      lags,
    });
    expect(starts(of)).toEqual([300, 0, 5, 35]);
  });

  it('choose the mode by where they are', () => {
    const of = problem({
      spaces: [space('shop'), space('store')],
      parts: [{ ...hatch, space: STORE }],
      activities: [
        activity(
          'wax',
          [mode({ duration: 10, space: SHOP }), mode({ duration: 50, space: STORE })],
          onHatch,
        ),
      ],
    });
    const plan = bestOf(of);
    expect(check(of, plan)).toEqual([]);
    expect(at(plan, 0).mode).toBe(1);
  });
});

const surface = (given: Partial<OpenSurface>): OpenSurface => ({
  id: 'film',
  activity: 0,
  until: [{ kind: 'constant', minutes: 100 }],
  coveredBy: [],
  source: '',
  ...given,
});
const dusty = (minutes: number) => mode({ duration: minutes, space: SHOP, air: 'dusty' });
const dustyShop = [space('shop', [{ space: SHOP, barrier: null }], 5), space('store')];

describe('air', () => {
  it('a surface that something covers is open until then, however long', () => {
    const of = problem({
      spaces: dustyShop,
      activities: [
        activity('coat', [mode({ duration: 20, space: SHOP, air: 'wet' })]),
        activity('bond', [mode({ duration: 10 })]),
        activity('sand', [dusty(30)]),
      ],
      surfaces: [surface({ coveredBy: [1] })],
      lags: [lag(0, 1, 200), lag(0, 2, 0, { fromAnchor: 'start' })],
    });
    expect(starts(of)).toEqual([0, 220, 220]);
  });

  it('a film goes with its part', () => {
    const of = problem({
      spaces: dustyShop,
      parts: [hatch],
      activities: [
        activity('coat', [mode({ duration: 20, space: SHOP, air: 'wet' })], onHatch),
        activity('carry', [mode({ duration: 5, space: SHOP, movesTo: STORE })], onHatch),
        activity('sand', [dusty(30)]),
      ],
      surfaces: [surface({})],
      lags: [lag(0, 1, 10), lag(0, 2, 0, { fromAnchor: 'start' })],
    });
    // Carried away by 35, the film no longer minds what is sanded in the shop.
    expect(starts(of)).toEqual([0, 30, 35]);
  });

  it('a closed barrier keeps dust out until it is opened', () => {
    const of = problem({
      spaces: [space('shop', [{ space: STORE, barrier: 0 }], 5), space('store')],
      barriers: [{ id: 'door', closed: false, source: '' }],
      activities: [
        activity('coat', [mode({ duration: 20, space: STORE, air: 'wet' })]),
        activity('close', [mode({ duration: 2, barrier: { barrier: 0, closes: true } })]),
        activity('sand', [dusty(30)]),
        activity('open', [mode({ duration: 2, barrier: { barrier: 0, closes: false } })]),
      ],
      surfaces: [surface({})],
      lags: [
        lag(0, 2, 0, { fromAnchor: 'start' }),
        lag(0, 1, 0, { fromAnchor: 'start' }),
        lag(2, 3, 0),
      ],
    });
    // Sanding from 2 to 32, its dust in the air until 37: the door opens then, and not at 32.
    expect(starts(of)).toEqual([0, 0, 2, 37]);
  });
});
