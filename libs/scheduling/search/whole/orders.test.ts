import { describe, expect, it } from 'vitest';
import { Literals } from '../../propagation/literal.ts';
import { activity, mode } from '../../testing/make.ts';
import { classesOf } from './model/crews.ts';
import { atLeast, atMost, Draft, not, type Condition } from './model/draft.ts';
import { stockOf } from './model/ground.ts';
import { ordersOf } from './model/orders.ts';
import { finished } from './model/steps.ts';
import { workOf } from './model/works.ts';
import { hour } from './testing/hour.ts';

describe('the order of two works', () => {
  // A of 5 minutes and B of 5 exclude each other where `when` holds, or always.
  const decided = (isAlways: boolean, isBefore: boolean, startsOfB: number): boolean => {
    const five = mode({ duration: 5 });
    const problem = hour({ activities: [activity('A', [five]), activity('B', [five])] });
    const draft = new Draft(problem.horizon);
    const stock = stockOf(problem);
    const classes = classesOf(problem);
    const ground = { problem, draft, classes, stock, hours: stock.hours, focus: null };
    const works = [0, 1].map((a) => workOf(ground, a, null, new Set()));
    const [one, other] = works;
    const orders = ordersOf(problem, draft, works, [], null);
    const when = draft.boolean();
    const stretches = works.map((work) => ({ work, to: work.finish, gap: 0 }));
    orders.exclude(stretches[0], stretches[1], isAlways ? null : when);
    const before = orders.before(one, other);
    if (before === null || before === false) throw new Error('the order is open');
    const network = finished(draft.network());
    const all: Condition[] = [
      isAlways ? when : not(when),
      isBefore ? before : not(before),
      atMost(one.start, 10),
      atLeast(one.start, 10),
      atMost(other.start, startsOfB),
      atLeast(other.start, startsOfB),
    ];
    return all.every((literal) => {
      const clause = new Literals();
      if (literal !== null) clause.add(literal.b, literal.v);
      return network.require(clause) && network.propagate();
    });
  };

  it('is that of their times', () => {
    for (const isAlways of [false, true]) {
      expect(decided(isAlways, true, 15)).toBe(true);
      expect(decided(isAlways, true, 5)).toBe(false);
      expect(decided(isAlways, false, 15)).toBe(false);
      expect(decided(isAlways, false, 5)).toBe(true);
    }
  });

  it('is open to overlap where they do not exclude each other', () => {
    expect(decided(false, false, 12)).toBe(true);
    expect(decided(false, true, 12)).toBe(false);
    expect(decided(true, false, 12)).toBe(false);
  });
});
