import { describe, expect, it } from 'vitest';
import type { Figure, Row } from '../bench.ts';
import { courseOf } from './course.ts';
import {
  enoughFor,
  paired,
  peersFigures,
  peersTable,
  proofRatios,
  tooLargeFor,
} from './summary.ts';

const row = (problem: string, solver: string, more: Row): Row => ({
  problem,
  solver,
  start: 1,
  flat: solver === 'ours' ? 0 : 2,
  first: null,
  after1: null,
  after10: null,
  after60: null,
  best: null,
  proved: null,
  proof: null,
  ...more,
});
const plans = (after1: number, after10: number, after60: number): Row => ({
  after1,
  after10,
  after60,
  best: after60,
});

const figure = (rows: readonly Row[], what: string): Figure | undefined =>
  peersFigures(rows).find((one) => one.what.startsWith(what));

describe('a course', () => {
  it('counts its marks from the end of start-up and flattening, the rest from the beginning', () => {
    const found = [
      { at: 4.5, value: 30 },
      { at: 9, value: 20 },
      { at: 80, value: 10 },
    ];
    const told = { startSeconds: 1, flatSeconds: 3, found, proved: null, provedAt: null } as const;
    expect(courseOf(told)).toMatchObject({
      first: 4.5,
      after1: 30,
      after10: 20,
      after60: 20,
      best: 10,
      proof: null,
    });
    expect(courseOf({ ...told, proved: 'optimal', provedAt: 81 }).proof).toBe(81);
  });
});

describe('the summary of peers', () => {
  const ours = row('a', 'ours', { ...plans(12, 10, 10), proved: 'optimal', proof: 1.5 });
  const fast = row('a', 'chuffed', { ...plans(11, 11, 10), proved: 'optimal', proof: 8 });
  const slow = row('a', 'gecode', { proved: null });

  it('counts each mark with each peer where either has a plan, and who is behind', () => {
    expect(figure([ours, fast, slow], 'comparisons')?.value).toBe(6);
    expect(figure([ours, fast, slow], 'behind in')).toMatchObject({
      what: 'behind in % of them (1)',
      value: 16.7,
      met: false,
    });
    expect(peersFigures([ours, fast, slow]).at(-1)?.value).toBe('a chuffed 1 s: 12 to 11');
  });

  it('takes the fastest proof of a peer, and 60 s for none of ours', () => {
    const solved = paired([ours, fast, slow]);
    expect(proofRatios(solved, [])).toEqual([1.5 / 8]);
    expect(proofRatios(solved, ['start'])).toEqual([0.5 / 7]);
    expect(proofRatios(solved, ['start', 'flat'])).toEqual([0.5 / 5]);
    const open = paired([row('a', 'ours', plans(12, 10, 10)), fast]);
    expect(proofRatios(open, [])).toEqual([61 / 8]);
    expect(proofRatios(open, ['start'])).toEqual([60 / 7]);
    expect(proofRatios(paired([ours, slow]), [])).toEqual([]);
  });

  it('leaves out what has no pair yet, and a proof beyond 60 s', () => {
    expect(paired([ours])).toEqual([]);
    expect(paired([fast])).toEqual([]);
    const late = row('a', 'chuffed', { ...plans(11, 11, 10), proved: 'optimal', proof: 64 });
    expect(proofRatios(paired([ours, late]), [])).toEqual([]);
  });

  it('counts no problem that a peer has still to do', () => {
    const other = row('b', 'ours', plans(5, 5, 5));
    expect(paired([ours, fast, slow, other, row('b', 'chuffed', plans(5, 5, 5))])).toHaveLength(1);
    const sets = [ours, fast].map((one) => ({ ...one, problem: 'j30/a.sm' }));
    expect(figure(sets, 'of them by kind')?.value).toBe('1 j30');
  });

  it('under a shorter limit has no later marks, and counts that limit for no proof of ours', () => {
    const open = row('a', 'ours', { ...plans(12, 10, 10), limit: 10 });
    const quick = row('a', 'chuffed', { ...plans(11, 11, 10), proof: 8, limit: 10 });
    expect(figure([open, quick], 'comparisons')?.value).toBe(2);
    expect(proofRatios(paired([open, quick]), [])).toEqual([11 / 8]);
  });

  it('knows when a peer can say nothing new', () => {
    expect(enoughFor([ours])).toBe(Infinity);
    expect(enoughFor([fast, slow])).toBe(Infinity);
    expect(enoughFor([ours, slow])).toBe(Infinity);
    expect(enoughFor([ours, fast])).toBe(10);
    expect(enoughFor([{ ...ours, proof: 21.5 }, fast])).toBe(21);
    expect(enoughFor([ours, { ...fast, proof: 30.5 }, { ...slow, proof: 14.2 }])).toBe(15);
  });

  it('tells a refused plan and a contradicted table', () => {
    const refused = { ...fast, wrong: 2, complaint: 'too early', table: 'below 11' };
    const rows = [ours, refused, slow];
    expect(figure(rows, "peers' plans")).toMatchObject({ value: 1, met: false });
    expect(figure(rows, 'our plans')).toMatchObject({ value: 0, met: true });
    expect(figure(rows, 'answers that')).toMatchObject({ value: 1, met: false });
    expect(figure(rows, 'refused')?.value).toBe('a chuffed: too early');
    expect(figure(rows, 'against the table')?.value).toBe('a chuffed: below 11');
  });

  it('sees what cannot both be true', () => {
    const better = row('a', 'chuffed', plans(11, 9, 9));
    expect(figure([ours, better], 'statements')).toMatchObject({ value: 1, met: false });
    const none = row('a', 'chuffed', { proved: 'infeasible', proof: 5 });
    expect(figure([ours, none], 'statements')).toMatchObject({ value: 1, met: false });
    expect(figure([ours, fast], 'statements')).toMatchObject({ value: 0, met: true });
  });

  it('has a line for each problem', () => {
    const unflattened = row('a', 'highs', { flat: null });
    expect(peersTable([ours, fast, slow, unflattened])).toEqual({
      head: ['problem', 'ours', 'chuffed', 'gecode', 'highs'],
      lines: [['a', '10, proved 1.5 s', '10, proved 8 s', '-', 'not flattened']],
    });
  });

  it('spares COIN-BC, and nobody else, the model that HiGHS could not be given in time', () => {
    const highs = row('a', 'highs', { flat: null, failure: null });
    expect(tooLargeFor('coin-bc', [ours, highs])).toBe(highs);
    expect(tooLargeFor('gecode', [ours, highs])).toBeNull();
    expect(tooLargeFor('coin-bc', [ours, { ...highs, flat: 59 }])).toBeNull();
    expect(tooLargeFor('coin-bc', [ours, { ...highs, failure: 'it broke' }])).toBeNull();
    expect(tooLargeFor('coin-bc', [ours])).toBeNull();
    const spared = { ...highs, solver: 'coin-bc', untried: true };
    expect(figure([ours, highs, spared], 'coin-bc')?.value).toContain('not tried 1');
  });
});
