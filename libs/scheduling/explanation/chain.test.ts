import { describe, expect, it } from 'vitest';
import { letters, workedExample } from '../testing/worked-example.ts';
import { check } from '../checker/check.ts';
import type { BindingChain, Plan } from '../model/plan.ts';
import type { Problem } from '../model/problem.ts';
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
      spaces: [{ id: 'bay', dustReaches: [0], settling: 40, source: 'bay' }],
      resources: [{ id: 'stand', steps: [{ from: 0, capacity: 1 }], source: 'stand' }],
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
    expect(two(dusty, wet, ['480-540', '580-640'], [0, 1])).toContain('0>1 air 580');
    const shy = activity('b', [work(60, { forbiddenStarts: [{ start: 400, end: 500 }] })], {
      release: 450,
    });
    expect(two(plain, shy, ['480-540', '500-560'], [0, 1])).toEqual([
      '->1 release 450',
      '->1 forbidden 500',
    ]);
    const set = activity('b', [work(60)], {
      fixed: { kind: 'set', start: 700, finish: null, builders: null },
    });
    expect(two(plain, set, ['480-540', '700-760'], [0, 1])).toEqual(['->1 fixed 700']);
  });

  it('asks the follow-up why its window keeps the opener late', () => {
    // Bo, the only one to coat, is busy until 800; the coat must follow the wipe within 60 minutes.
    const coat = [{ skill: 1, minLevel: 1, count: 1 }];
    const of = problem({
      builders: [
        builder('Ada'),
        builder('Bo', { abilities: [{ skill: 1, level: 1, speed: 100 }] }),
      ],
      activities: [
        activity('busy', [work(50, { crew: coat })], { refit: null, release: 750 }),
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
        activity('grind', [work(60)], { release: 840 }),
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
        activity('grind', [work(60)], { release: 840 }),
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
    for (let seed = 0; seed < 60; seed += 1) {
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
