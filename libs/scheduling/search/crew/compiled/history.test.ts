import { describe, expect, it } from 'vitest';
import type { FixedWork, Lag, Mode, Problem } from '../../../model/problem.ts';
import { activity, lag, mode, problem, work } from '../../../testing/make.ts';
import { frozenModes } from './history.ts';

const frozen = (start: number, finish: number, builders: readonly number[] = []): FixedWork => ({
  kind: 'frozen',
  start,
  finish,
  builders,
});
const done = (id: string, fixed: FixedWork, modes: readonly Mode[]) =>
  activity(id, modes, { fixed });
const tool = (given: Partial<Mode> = {}): Mode =>
  mode({
    duration: 60,
    demands: [{ resource: 0, amount: 1, keptWhilePaused: false }],
    ...given,
  });
const bench = { id: 'bench', steps: [{ from: 0, capacity: 1 }], calendar: null, source: '' };

/** The modes thought to have been used, no lag belonging to a branch. */
const modesOf = (of: Problem): number[] =>
  frozenModes(
    of,
    of.lags.map(() => -1),
  );

describe('modes of frozen work', () => {
  it('are as many people, and as long as it took', () => {
    const pair = mode({ work: 12_000, crew: [{ skill: 0, minLevel: 1, count: 2 }] });
    const of = problem({
      activities: [
        done('alone or two', frozen(480, 540, [0, 1]), [work(60), pair]),
        done('quick or slow', frozen(540, 630, [0]), [work(60), work(90)]),
        activity('to come', [work(10), work(20)]),
      ],
    });
    expect(modesOf(of)).toEqual([1, 1, 0]);
  });

  it('keep the lags among what has happened, and those alone', () => {
    const fns: Lag['fns'] = [
      { kind: 'constant', minutes: 100 },
      { kind: 'constant', minutes: 30 },
    ];
    const coats = (second: FixedWork | null): Problem =>
      problem({
        activities: [
          done('coat', frozen(0, 60), [mode({ duration: 60 }), mode({ duration: 50 })]),
          activity('next', [mode({ duration: 5 })], { fixed: second }),
        ],
        lags: [lag(0, 1, 0, { fns })],
      });
    // The first mode is likelier, having taken an hour, but would have asked for a start from 160 on.
    expect(modesOf(coats(frozen(100, 105)))).toEqual([1, 0]);
    expect(modesOf(coats(frozen(160, 165)))).toEqual([0, 0]);
    expect(modesOf(coats(null))).toEqual([0, 0]);
    // A lag of a branch that may not be the one taken says nothing.
    expect(frozenModes(coats(frozen(100, 105)), [0])).toEqual([0, 0]);
  });

  it('fit the capacities, their own holds and each other', () => {
    const holding = problem({
      resources: [bench],
      activities: [done('lay', frozen(0, 60), [tool(), mode({ duration: 10 })])],
      holds: [{ id: 'mould', activity: 0, resource: 0, amount: 1, ends: [], source: '' }],
    });
    expect(modesOf(holding)).toEqual([1]);
    const two = problem({
      resources: [bench],
      activities: [
        done('a', frozen(0, 60), [tool(), mode({ duration: 10 })]),
        done('b', frozen(30, 90), [tool()]),
      ],
    });
    expect(modesOf(two)).toEqual([1, 0]);
  });

  it('leave enough of the stocks for what is to come', () => {
    const using = (amount: number, minutes: number): Mode =>
      mode({ duration: minutes, consumes: [{ stock: 0, amount }] });
    const of = (total: number): Problem =>
      problem({
        stocks: [{ id: 'resin', total, source: '' }],
        activities: [
          done('laid', frozen(0, 60), [using(5, 60), using(2, 50)]),
          activity('to lay', [using(4, 10), using(3, 20)]),
        ],
      });
    expect(modesOf(of(8))).toEqual([0, 0]);
    expect(modesOf(of(7))).toEqual([1, 0]);
    // Nothing fits: then they are the likeliest, for others to refuse.
    expect(modesOf(of(4))).toEqual([0, 0]);
  });
});
