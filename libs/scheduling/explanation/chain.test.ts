import { describe, expect, it } from 'vitest';
import { letters, workedExample } from '../testing/worked-example.ts';
import { check } from '../checker/check.ts';
import type { BindingChain, Plan } from '../model/plan.ts';
import type { Activity, Mode, Problem } from '../model/problem.ts';
import { madeUpYard } from '../testing/made-up-yard.ts';
import { solve } from '../solve.ts';
import {
  activity,
  builder,
  lag,
  mode,
  placed,
  plan as planOf,
  problem,
  work,
} from '../testing/make.ts';
import { plantedProblem } from '../testing/planted.ts';
import { bindingChain } from './chain.ts';

const at = (minute: number): Activity['releases'] => [{ at: minute, kind: 'boat', source: 'boat' }];

const told = (chain: BindingChain): string[] =>
  chain.links.map(
    ({ from, to, reason, until }) =>
      `${from === null ? '-' : String(from)}>${String(to)} ${reason.kind} ${String(until)}`,
  );

/** What must hold of any chain: it ends at the refit's finish, and each cause is the last word on its predecessor. */
function sound(of: Problem, plan: Plan, chain: BindingChain): void {
  const at = new Map(plan.placements.map((p) => [p.activity, p]));
  const last = chain.links.at(-1);
  if (last) {
    expect(at.get(last.to)?.finish).toBe(plan.finishes[chain.refit]);
    expect(of.activities[last.to].refit).toBe(chain.refit);
  }
  chain.links.forEach(({ from, to, until }, k) => {
    expect(until).toBeLessThanOrEqual(at.get(to)?.start ?? -1);
    if (from !== null) expect(at.has(from)).toBe(true);
    const previous = k > 0 ? chain.links[k - 1] : null;
    if (previous) expect([previous.to, previous.from]).toContain(from);
  });
}

describe('binding chain', () => {
  it('is the critical path of the worked example', () => {
    const of = workedExample();
    const starts = [0, 2, 6, 16, 16, 20, 22, 29, 16, 25, 33, 33, 38, 38];
    const plan = planOf(
      of,
      starts.map((s, a) =>
        placed(a, `${String(s)}-${String(s + of.activities[a].modes[0].duration)}`),
      ),
    );
    const { links } = bindingChain(of, plan, 0);
    expect(links.map((l) => letters[l.to]).join('')).toBe('ABCEFJLN');
    expect(links.slice(1).every((l) => l.reason.kind === 'lag')).toBe(true);
  });

  it('tells a lag from a wait for the shift after it', () => {
    const of = problem({
      activities: [activity('coat', [work(60)]), activity('sand', [work(60)])],
      lags: [lag(0, 1, 600)],
    });
    const plan = planOf(of, [placed(0, '480-540', [0]), placed(1, '1920-1980', [0])]);
    expect(told(bindingChain(of, plan, 0))).toEqual([
      '->0 calendar 480',
      '0>1 lag 1140',
      '0>1 calendar 1920',
    ]);
  });

  it('tells builder, resource, air, forbidden start, release and the foreman apart', () => {
    const stand = { resource: 0, amount: 1, keptWhilePaused: true };
    const base = {
      spaces: [
        { id: 'bay', dustReaches: [{ space: 0, barrier: null }], settling: 40, source: 'bay' },
      ],
      resources: [
        { id: 'stand', steps: [{ from: 0, capacity: 1 }], calendar: null, source: 'stand' },
      ],
    };
    const two = (
      a: ReturnType<typeof activity>,
      b: ReturnType<typeof activity>,
      spans: [string, string],
      who: [number, number],
    ): string[] => {
      const of = problem({ ...base, activities: [a, b] });
      const plan = planOf(of, [placed(0, spans[0], [who[0]]), placed(1, spans[1], [who[1]])]);
      expect(check(of, plan)).toEqual([]);
      return told(bindingChain(of, plan, 0));
    };
    const plain = activity('plain', [work(60)], { refit: null });
    expect(two(plain, activity('b', [work(60)]), ['480-540', '540-600'], [0, 0])).toEqual([
      '->0 calendar 480',
      '0>1 builder 540',
    ]);
    const standing = [work(60, { demands: [stand] })];
    expect(
      two(
        activity('a', standing, { refit: null }),
        activity('b', standing),
        ['480-540', '540-600'],
        [0, 1],
      ),
    ).toContain('0>1 resource 540');
    const dusty = activity('a', [work(60, { air: 'dusty', space: 0 })], { refit: null });
    const wet = activity('b', [work(60, { air: 'wet', space: 0 })]);
    expect(two(dusty, wet, ['480-540', '580-640'], [0, 1])).toContain('0>1 dust 580');
    const shy = activity(
      'b',
      [
        work(60, {
          forbidden: [
            { anchor: 'start', spans: [{ start: 400, end: 500 }], kind: 'dew', source: 'dew' },
          ],
        }),
      ],
      {
        releases: at(450),
      },
    );
    expect(two(plain, shy, ['480-540', '500-560'], [0, 1])).toEqual([
      '->1 release 450',
      '->1 forbidden 500',
    ]);
    const set = activity('b', [work(60)], {
      fixed: { kind: 'set', start: 700, finish: null, builders: null },
    });
    expect(two(plain, set, ['480-540', '700-760'], [0, 1])).toEqual(['->1 fixed 700']);
  });

  it('tells parts, moulds, doors, machines and slots apart', () => {
    const [day] = problem().calendars;
    const base: Partial<Problem> = {
      calendars: [day, { ...day, id: 'late', shifts: [{ start: 620, end: 900 }], breaks: [] }],
      spaces: ['bay', 'booth'].map((id) => ({ id, dustReaches: [], settling: 0, source: id })),
      parts: [{ id: 'hatch', space: 0, source: 'hatch' }],
      barriers: [{ id: 'door', closed: false, source: 'door' }],
      resources: [
        { id: 'mould', steps: [{ from: 0, capacity: 1 }], calendar: null, source: 'mould' },
        { id: 'lathe', steps: [{ from: 0, capacity: 1 }], calendar: 1, source: 'lathe' },
      ],
      slotLists: [
        {
          id: 'crane',
          slots: [{ start: 650, end: 760, cost: 1, bookBy: 0 }],
          source: 'crane',
        },
      ],
    };
    const two = (
      first: Activity,
      second: Activity,
      spans: [string, string],
      given: Partial<Problem> = {},
    ): string[] => {
      const of = problem({ ...base, ...given, activities: [first, second] });
      const slot = second.modes[0].slots === null ? null : 0;
      const plan = planOf(of, [placed(0, spans[0], [0]), placed(1, spans[1], [1], { slot })]);
      expect(check(of, plan)).toEqual([]);
      return told(bindingChain(of, plan, 0));
    };
    const other = (given: Partial<Activity> = {}, way = {}): Activity =>
      activity('a', [work(60, way)], { refit: null, ...given });
    const own = (given: Partial<Activity> = {}, way = {}): Activity =>
      activity('b', [work(60, way)], given);

    expect(two(other({ parts: [0] }), own({ parts: [0] }), ['480-540', '540-600'])).toContain(
      '0>1 part 540',
    );
    const carry = other({ parts: [0] }, { movesTo: 1 });
    expect(two(carry, own({ parts: [0] }, { space: 1 }), ['480-540', '540-600'])).toContain(
      '0>1 part 540',
    );
    const act = { barrier: { barrier: 0, closes: true } };
    expect(two(other({}, act), own({}, act), ['480-540', '540-600'])).toContain('0>1 barrier 540');
    const ends = [{ kind: 'lag', fns: [{ kind: 'constant', minutes: 50 }] }] as const;
    const holds = [{ id: 'h', activity: 0, resource: 0, amount: 1, ends, source: 'h' }];
    const needs = (resource: number): Partial<Mode> => ({
      demands: [{ resource, amount: 1, keptWhilePaused: false }],
    });
    expect(two(other(), own({}, needs(0)), ['480-540', '590-650'], { holds })).toContain(
      '0>1 hold 590',
    );
    expect(two(other(), own({}, needs(1)), ['480-540', '620-680'])).toEqual(['->1 hours 620']);
    expect(two(other(), own({}, { slots: 0 }), ['480-540', '650-710'])).toEqual(['->1 slots 650']);
  });

  it('asks the follow-up why its window keeps the opener late', () => {
    // Bo, the only one to coat, is busy until 800; the coat must follow the wipe within 60 minutes.
    const coat = [{ skill: 1, minLevel: 1, count: 1 }];
    const of = problem({
      builders: [
        builder('Ada'),
        builder('Bo', { abilities: [{ skill: 1, level: 1, speed: 100, needsSenior: false }] }),
      ],
      activities: [
        activity('busy', [work(50, { crew: coat })], { refit: null, releases: at(750) }),
        activity('wipe', [work(20)]),
        activity('coat', [work(60, { crew: coat })]),
      ],
      lags: [lag(1, 2, 10), lag(1, 2, 60, { bound: 'close', kind: 'stale' })],
    });
    const plan = planOf(of, [
      placed(0, '750-800', [1]),
      placed(1, '720-740', [0]),
      placed(2, '800-860', [1]),
    ]);
    expect(check(of, plan)).toEqual([]);
    const links = told(bindingChain(of, plan, 0));
    expect(links.at(-1)).toBe('0>2 builder 800');
  });

  it('passes over a window to a follow-up that was free to move along', () => {
    // The coat could follow an earlier wipe at once: it is the grinding that holds both back.
    const of = problem({
      activities: [
        activity('grind', [work(60)], { releases: at(840) }),
        activity('wipe', [work(20)]),
        activity('coat', [work(60)]),
      ],
      lags: [
        lag(0, 1, 0),
        lag(1, 2, 10),
        lag(1, 2, 100, { fromAnchor: 'start', toAnchor: 'finish', bound: 'close', kind: 'stale' }),
      ],
    });
    const plan = planOf(of, [
      placed(0, '840-900', [0]),
      placed(1, '1920-1940', [0]), // nothing fits between 900 and the end of the shift but the wipe alone
      placed(2, '1950-2010', [0]),
    ]);
    expect(check(of, plan)).toEqual([]);
    expect(told(bindingChain(of, plan, 0))).toEqual([
      '->0 release 840',
      '0>1 lag 900',
      '0>1 calendar 1920',
      '1>2 lag 1950',
    ]);
  });

  it('does not blame what lies between two tied activities and would move along', () => {
    // The bed's window has to hold for the aft face too, and the fore face comes between.
    const of = problem({
      activities: [
        activity('grind', [work(60)], { releases: at(840) }),
        activity('bed', [work(20)]),
        activity('fore', [work(60)]),
        activity('aft', [work(60)]),
      ],
      lags: [
        lag(0, 1, 0),
        lag(1, 2, 10),
        lag(2, 3, 0),
        lag(1, 3, 200, { fromAnchor: 'start', toAnchor: 'finish', bound: 'close', kind: 'bond' }),
      ],
    });
    const plan = planOf(of, [
      placed(0, '840-900', [0]),
      placed(1, '1920-1940', [0]),
      placed(2, '1950-2010', [0]),
      placed(3, '2010-2070', [0]),
    ]);
    expect(check(of, plan)).toEqual([]);
    expect(told(bindingChain(of, plan, 0))).toEqual([
      '->0 release 840',
      '0>1 lag 900',
      '0>1 calendar 1920',
      '1>2 lag 1950',
      '2>3 lag 2010',
    ]);
  });

  it('holds together for planted plans and for a yard', () => {
    for (let seed = 0; seed < 30; seed += 1) {
      const { problem: of, plan } = plantedProblem(seed, 4 + (seed % 37));
      of.refits.forEach((_, r) => {
        sound(of, plan, bindingChain(of, plan, r));
      });
    }
    const of = madeUpYard(4, 6);
    const { plan, chains } = solve(of, { seed: 1, iterations: 150 });
    if (!plan) throw new Error('no plan');
    for (const chain of chains) {
      sound(of, plan, chain);
      expect(chain.links.length).toBeGreaterThan(2);
    }
  });

  it('is empty for a refit without work', () => {
    const of = problem({ activities: [activity('a', [mode({ duration: 5 })], { refit: null })] });
    expect(bindingChain(of, planOf(of, [placed(0, '0-5')]), 0)).toEqual({ refit: 0, links: [] });
  });
});
