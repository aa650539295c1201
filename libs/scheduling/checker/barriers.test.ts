import { describe, expect, it } from 'vitest';
import type { DustReach, Mode, Problem } from '../model/problem.ts';
import { activity, kinds, mode, placed, plan, problem } from '../testing/make.ts';
import { check } from './check.ts';

const space = (id: string, settling: number, ...dustReaches: readonly DustReach[]) => ({
  id,
  dustReaches,
  settling,
  source: id,
});
const reach = (to: number, barrier: number | null = null): DustReach => ({ space: to, barrier });
const does = (id: string, given: Partial<Mode>) => activity(id, [mode({ duration: 10, ...given })]);
const sand = activity('sand', [mode({ duration: 30, space: 0, air: 'dusty' })]);
const coat = activity('coat', [mode({ duration: 60, space: 1, air: 'wet' })]);
const sanded = (at: number) => placed(0, `${at}-${at + 30}`);

describe('barriers', () => {
  const doors = (closed: boolean, ...more: readonly DustReach[]): Problem =>
    problem({
      barriers: [
        { id: 'door', closed, source: 'door' },
        { id: 'hatch', closed: true, source: 'hatch' },
      ],
      spaces: [space('bench', 20, reach(1, 0), ...more), space('booth', 0)],
      activities: [
        sand,
        coat,
        does('close', { barrier: { barrier: 0, closes: true } }),
        does('open', { barrier: { barrier: 0, closes: false } }),
      ],
    });
  /** Wet work 500-560; closed 300-310, opened at the given minute. */
  const met = (of: Problem, sanding: number, close: number, open: number): string[] =>
    kinds(of, [
      sanded(sanding),
      placed(1, '500-560'),
      placed(2, `${close}-${close + 10}`),
      placed(3, `${open}-${open + 10}`),
    ]);

  it.each([
    ['closed in time', 500, 490, 560, []],
    ['closed a minute late', 500, 491, 560, ['dust']],
    ['opened a minute early', 500, 490, 559, []],
    ['opened into dust that hangs', 515, 490, 559, ['dust']],
    ['opened when it has settled', 505, 490, 555, []],
    ['opened a minute before it has settled', 506, 490, 555, ['dust']],
    ['closed after', 500, 600, 700, ['dust']],
    ['closed and opened before', 500, 300, 400, ['dust']],
  ])('%s', (_, sanding, close, open, expected) => {
    expect(met(doors(false), sanding, close, open)).toEqual(expected);
  });
  it.each([
    ['opened after', 500, 700, 600, []],
    ['opened a minute before the end', 500, 700, 549, ['dust']],
    ['opened before', 500, 700, 100, ['dust']],
    ['opened and closed before', 500, 490, 300, []],
  ])('closed before the first act, %s', (_, sanding, close, open, expected) => {
    expect(met(doors(true), sanding, close, open)).toEqual(expected);
  });
  it('do not keep dust from another way', () => {
    expect(met(doors(true), 500, 700, 600)).toEqual([]);
    expect(met(doors(true, reach(1)), 500, 700, 600)).toEqual(['dust']);
    const [bench, booth] = doors(true, reach(1)).spaces;
    const turned = { ...bench, dustReaches: bench.dustReaches.toReversed() };
    expect(met({ ...doors(true), spaces: [turned, booth] }, 500, 700, 600)).toEqual(['dust']);
    expect(met(doors(true, reach(1, 1)), 500, 700, 600)).toEqual([]);
    expect(met(doors(false, reach(1, 1)), 500, 490, 560)).toEqual([]);
  });
  it('are moved by one at a time', () => {
    const of = doors(false);
    expect(met(of, 0, 100, 110)).toEqual([]);
    const both = [sanded(0), placed(1, '500-560'), placed(2, '100-110'), placed(3, '109-119')];
    expect(check(of, plan(of, both))).toMatchObject([
      { kind: 'barrier', activities: [2, 3], constraint: { kind: 'barrier', barrier: 0 } },
    ]);
    const [, , close, open] = of.activities;
    const other = { ...open.modes[0], barrier: { barrier: 1, closes: false } };
    const apart = { ...of, activities: [sand, coat, close, { ...open, modes: [other] }] };
    expect(kinds(apart, both)).toEqual([]);
  });
  it('were moved by what has happened', () => {
    const of = doors(false);
    const [, , close, open] = of.activities;
    const past: Problem = {
      ...of,
      activities: [
        sand,
        coat,
        { ...close, fixed: { kind: 'frozen', start: -10, finish: 2, builders: [] } },
        open,
      ],
    };
    const after = (minute: number): string[] =>
      kinds(past, [
        sanded(500),
        placed(1, '500-560'),
        placed(2, '-10-2'),
        placed(3, `${minute}-${minute + 10}`),
      ]);
    expect([600, 490].map(after)).toEqual([[], ['dust']]);
    expect(after(1)).toContain('barrier');
  });
});
