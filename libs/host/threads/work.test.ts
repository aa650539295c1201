import { describe, expect, it } from 'vitest';
import { check } from '#scheduling/checker/check.ts';
import { openPortfolio } from '#scheduling/search/portfolio/portfolio.ts';
import { rosterOf } from '#scheduling/search/portfolio/roster.ts';
import { madeUpYard } from '#scheduling/testing/made-up-yard.ts';
import { isShortOfMemory, newSignals, askToStop, cutAfter } from './watch.ts';
import { workplaceOf } from './work.ts';

const yard = madeUpYard(2, 2);
const part = { seat: 0, iterations: 40, whole: true };

const open = () => {
  const { desk, board } = openPortfolio(yard, 1, null, rosterOf(yard));
  return { desk, exchange: board.exchange() };
};

/** Memory that is short once a plan may be there. */
const shortAfter = (looks: number) => {
  let left = looks;
  return { held: () => 0, isShort: () => (left -= 1) < 0 };
};

describe('one thread at work', () => {
  it('lets a searcher go where memory is short, and keeps what it had found', () => {
    const { desk, exchange } = open();
    const signals = newSignals(null);
    const workplace = workplaceOf(desk, signals, shortAfter(3));
    const [first] = workplace.work([part], exchange, () => undefined);
    expect(first).toMatchObject({ seat: 0, used: 40, cut: false, state: { done: true } });
    expect(isShortOfMemory(signals)).toBe(true);
    const { plan } = first.state;
    if (plan === null) throw new Error('no plan');
    expect(check(yard, plan)).toEqual([]);
    // In later rounds it has nothing to do, and says the same.
    const [again] = workplace.work([part], exchange, () => undefined);
    expect(again.state.plan).toBe(plan);
    expect(again.state.iterations).toBe(first.state.iterations);
  });

  it('stops between two iterations, and begins nothing that is not wanted', () => {
    const { desk, exchange } = open();
    const signals = newSignals(null);
    const workplace = workplaceOf(desk, signals, { held: () => 0, isShort: () => false });
    const [cut, ...rest] = workplace.work([part, { ...part, seat: 1 }], exchange, (_, used) => {
      if (used >= 3) askToStop(signals);
    });
    expect(cut.cut).toBe(true);
    expect(cut.used).toBeLessThan(40);
    expect(rest).toEqual([]);
    expect(workplace.work([part], exchange, () => undefined)).toEqual([]);
  });

  it('leaves out what comes after a searcher that has decided the problem', () => {
    const { desk, exchange } = open();
    const signals = newSignals(null);
    cutAfter(signals, 1);
    cutAfter(signals, 0);
    cutAfter(signals, 2);
    const workplace = workplaceOf(desk, signals, { held: () => 0, isShort: () => false });
    const parts = [part, { ...part, seat: 1 }];
    expect(workplace.work(parts, exchange, () => undefined).map(({ seat }) => seat)).toEqual([0]);
  });

  it('is over at its deadline', () => {
    const { desk, exchange } = open();
    const workplace = workplaceOf(desk, newSignals(Date.now()), {
      held: () => 0,
      isShort: () => false,
    });
    expect(workplace.work([part], exchange, () => undefined)).toEqual([]);
  });
});
