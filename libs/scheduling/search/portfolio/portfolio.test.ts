import { describe, expect, it } from 'vitest';
import { activity, problem, work } from '../../testing/make.ts';
import type { Plan, ProvedBound, RankValues, SearchState } from '../../model/plan.ts';
import type { Standing } from './board.ts';
import { createPortfolio } from './portfolio.ts';
import type { Seat } from './seat.ts';

const one = problem({ activities: [activity('cut', [work(60)])] });

const planOf = (values: RankValues): Plan => ({
  placements: [],
  branches: [],
  finishes: [],
  values,
});

const bounded = (bound: number): ProvedBound[] =>
  [0, bound, 0, 0].map((b) => ({ bound: b, caps: [], proof: 'search' }));

/** What a searcher shows after so many iterations of its own. */
type Show = (iterations: number) => Partial<SearchState>;

interface Told {
  readonly name: string;
  readonly values: RankValues | null;
  readonly bound: number;
}

/** A searcher that follows a script, and writes down what it is told at barriers. */
const scripted = (
  name: string,
  from: number,
  show: Show,
  told: Told[],
  leading: Plan[] = [],
): Seat => ({
  name,
  from,
  share: 1,
  proves: true,
  needsPlan: false,
  cost: 1000,
  open: () => {
    let iterations = 0;
    const state = (): SearchState => ({
      status: 'unknown',
      plan: null,
      bounds: bounded(0),
      done: false,
      ...show(iterations),
      iterations,
    });
    return {
      step(count) {
        for (let k = 0; k < count && !state().done; k += 1) iterations += 1;
        return state();
      },
      receive(plan, bounds) {
        told.push({ name, values: plan && plan.values, bound: bounds[1].bound });
      },
      leading: () => leading,
    };
  },
});

const finds = (at: number, values: RankValues): Show => {
  const plan = planOf(values);
  return (iterations) => (iterations < at ? {} : { plan, status: 'feasible' });
};

/** Runs in strides of `count` until so many iterations are done. */
function run(seats: readonly Seat[], iterations: number, count: number): Standing {
  const portfolio = createPortfolio(one, 1, null, seats);
  let state = portfolio.step(0);
  while (!state.done && state.iterations < iterations)
    state = portfolio.step(Math.min(count, iterations - state.iterations));
  return state;
}

describe('the portfolio', () => {
  it('tells what was found at the next barrier, and not before', () => {
    const told: Told[] = [];
    const seats = [
      scripted('first', 0, finds(1, [0, 900, 0, 0]), told),
      scripted('second', 0, finds(1, [0, 800, 0, 0]), told),
      scripted('third', 1, () => ({ bounds: bounded(700) }), told),
    ];
    run(seats, 16, 1);
    // Two iterations each in the first round, three in the second, five in the third.
    expect(told.map(({ name, values, bound }) => [name, values?.[1] ?? null, bound])).toEqual([
      ['first', null, 540],
      ['second', null, 540],
      ['first', 800, 540],
      ['second', 800, 540],
      ['third', 800, 540],
      ['first', 800, 700],
    ]);
  });

  it('comes to the same in whatever strides it is driven', () => {
    const seats = (): Seat[] => [
      scripted('first', 0, finds(5, [0, 900, 0, 0]), []),
      scripted('second', 1, finds(9, [0, 800, 0, 0]), []),
      scripted('third', 2, (n) => (n < 4 ? {} : { bounds: bounded(600), done: true }), []),
    ];
    for (const iterations of [1, 7, 20, 33, 64])
      for (const stride of [2, 5, 1000])
        expect(run(seats(), iterations, stride)).toEqual(run(seats(), iterations, 1));
  });

  it('ends with whoever decides the problem, the rest of the round left out', () => {
    const told: Told[] = [];
    const best: Partial<SearchState> = {
      status: 'optimal',
      plan: planOf([0, 540, 0, 0]),
      done: true,
    };
    const seats = [
      scripted('first', 0, () => ({}), told),
      scripted('second', 0, (n) => (n < 3 ? {} : { ...best, bounds: bounded(540) }), told),
      scripted('third', 1, () => ({}), told),
    ];
    expect(run(seats, 1000, 4)).toMatchObject({ status: 'optimal', iterations: 8, done: true });
    expect(told.filter(({ name }) => name === 'third')).toEqual([]);
    const none: Show = (n) => (n < 1 ? {} : { status: 'infeasible', done: true });
    expect(run([scripted('one', 0, none, [])], 1000, 4)).toMatchObject({
      status: 'infeasible',
      plan: null,
      iterations: 1,
    });
  });

  it('is optimal where the plan of one meets the bound of another', () => {
    const seats = [
      scripted('finder', 0, finds(1, [0, 540, 0, 0]), []),
      scripted('prover', 0, () => ({ bounds: bounded(540) }), []),
    ];
    expect(run(seats, 1000, 1)).toMatchObject({ status: 'optimal', iterations: 2 });
  });

  it('goes on without those that have nothing more to do, and ends when nobody has', () => {
    const idle: Show = (n) => ({ done: n >= 3 });
    const seats = [scripted('first', 0, idle, []), scripted('second', 0, idle, [])];
    const state = run(seats, 1000, 3);
    // Both give up in the second round, whose iterations are counted to its end.
    expect(state).toMatchObject({ status: 'unknown', done: true, iterations: 10 });
  });

  it('keeps to a cap that another plan than the best one sets', () => {
    const yard = { ...one, tolerances: [0, 10, 0] as const };
    const cap = planOf([0, 600, 90, 0]);
    // The first gives up 10 minutes for money and knows that no more may go; the second does not.
    const seats = [
      scripted('first', 0, finds(1, [0, 610, 50, 0]), [], [cap]),
      scripted('second', 0, finds(1, [0, 615, 10, 0]), []),
    ];
    const portfolio = createPortfolio(yard, 1, null, seats);
    expect(portfolio.step(12).plan?.values).toEqual([0, 610, 50, 0]);
  });
});
