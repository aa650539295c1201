import { describe, expect, it } from 'vitest';
import type { Mode, Problem } from '../../../model/problem.ts';
import { activity, mode, problem } from '../../../testing/make.ts';
import { compile } from '../compiled/compiled.ts';
import { emptyGenome, type Genome } from './genome.ts';
import { stockModes, type StockModes } from './stock.ts';

const using = (...amounts: number[]): Mode =>
  mode({ duration: 10, consumes: amounts.map((amount, stock) => ({ stock, amount })) });

const stocked = (totals: readonly number[], ways: readonly Mode[], activities: number): Problem =>
  problem({
    stocks: totals.map((total, k) => ({ id: `stock-${k}`, total, source: '' })),
    activities: Array.from({ length: activities }, (_, a) => activity(`a${a}`, ways)),
  });

function setUp(of: Problem): { stock: StockModes; genome: Genome } {
  const compiled = compile(of);
  const stock = stockModes(compiled);
  if (stock === null) throw new Error('nothing is consumed');
  return { stock, genome: emptyGenome(compiled) };
}

const all = (count: number): Uint8Array => new Uint8Array(count).fill(1);

describe('modes chosen for the stocks', () => {
  it('are nobody’s concern where nothing is consumed', () => {
    expect(stockModes(compile(stocked([3], [using(0), using(0)], 2)))).toBeNull();
  });

  it('are those wished for where that fits, and only of what consumes', () => {
    const of = stocked([9], [using(5), using(2), using(3)], 3);
    const { stock, genome } = setUp({
      ...of,
      activities: [...of.activities, activity('dry', [mode({ duration: 1 })])],
    });
    genome.mode.set([1, 2, 1, 0]);
    expect(stock.choose(genome, all(4))).toBe(true);
    expect([...stock.mode]).toEqual([1, 2, 1, -1]);
  });

  it('change no more than has to be', () => {
    const { stock, genome } = setUp(stocked([9], [using(5), using(2)], 3));
    genome.mode.fill(0);
    expect(stock.choose(genome, all(3))).toBe(true);
    expect([...stock.mode].sort()).toEqual([0, 1, 1]);
  });

  it('are traded between stocks where saving one costs another', () => {
    const { stock, genome } = setUp(stocked([6, 4], [using(3, 0), using(0, 2)], 4));
    genome.mode.fill(0);
    expect(stock.choose(genome, all(4))).toBe(true);
    expect([...stock.mode].sort()).toEqual([0, 0, 1, 1]);
  });

  it('are not found where there are none, but for those that are absent', () => {
    const { stock, genome } = setUp(stocked([5], [using(3), using(2)], 3));
    expect(stock.choose(genome, all(3))).toBe(false);
    expect(stock.choose(genome, Uint8Array.of(1, 0, 1))).toBe(true);
    expect(stock.mode[1]).toBe(-1);
  });

  it('of frozen work are what they were', () => {
    const of = stocked([5], [using(3), using(2)], 2);
    const [first, second] = of.activities;
    const fixed = { kind: 'frozen', start: 0, finish: 10, builders: [] } as const;
    const { stock, genome } = setUp({ ...of, activities: [{ ...first, fixed }, second] });
    genome.mode.set([1, 0]);
    expect(stock.choose(genome, all(2))).toBe(true);
    expect([...stock.mode]).toEqual([0, 1]);
  });
});
