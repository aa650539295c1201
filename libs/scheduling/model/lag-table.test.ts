import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { firstReaching, lastOpened, readDown, readUp } from './lag-table.ts';
import type { LagTable, LineTable, StepTable } from './problem.ts';

const steps = (grid: number, values: readonly number[]): StepTable => ({
  id: 'steps',
  grid,
  values,
  source: 'test',
});
const lines = (at: readonly number[], values: readonly number[]): LineTable => ({
  id: 'lines',
  at,
  values,
  source: 'test',
});

/** Up to `count` numbers, `least` or more apart, from `first` on. */
const ascending = (
  count: number,
  first: number,
  least: number,
  most: number,
): fc.Arbitrary<number[]> =>
  fc.array(fc.integer({ min: least, max: most }), { maxLength: count }).map((gaps) => {
    const list = [first];
    for (const gap of gaps) list.push(list[list.length - 1] + gap);
    return list;
  });

const anyLines = fc
  .tuple(ascending(25, 0, 1, 12), fc.integer({ min: -20, max: 40 }))
  .chain(([at, from]) =>
    fc
      .array(fc.oneof(fc.constant(0), fc.integer({ min: 0, max: 30 })), {
        minLength: at.length,
        maxLength: at.length,
      })
      .map((rises) => {
        let value = from;
        return lines(
          at,
          rises.map((rise) => (value += rise)),
        );
      }),
  );
const anySteps = fc
  .tuple(fc.integer({ min: 1, max: 9 }), ascending(25, -5, 0, 20))
  .map(([grid, values]) => steps(grid, values));
const anyTable: fc.Arbitrary<LagTable> = fc.oneof(anySteps, anyLines);

/** The contract's words, minute by minute, in fractions of whole numbers. */
function defined(table: LagTable, t: number): { readonly up: number; readonly down: number } {
  const { values } = table;
  const at = 'at' in table ? table.at : values.map((_, k) => k * table.grid);
  const before = at.filter((minute) => minute <= t).length - 1;
  if (at[before] === t || before === at.length - 1)
    return { up: values[before], down: values[before] };
  if ('grid' in table) return { up: values[before + 1], down: values[before] };
  const width = BigInt(at[before + 1] - at[before]);
  const risen = BigInt(t - at[before]) * BigInt(values[before + 1] - values[before]);
  const down = values[before] + Number(risen / width);
  return { up: risen % width === 0n ? down : down + 1, down };
}

const minutesOf = (table: LagTable): number[] => {
  const last = 'at' in table ? table.at[table.at.length - 1] : table.values.length * table.grid;
  return Array.from({ length: last + 4 }, (_, t) => t);
};

describe('a lag table', () => {
  it('is read as the contract says, at every minute', () => {
    fc.assert(
      fc.property(anyTable, (table) => {
        for (const t of minutesOf(table)) {
          const { up, down } = defined(table, t);
          expect([t, readUp(table, t), readDown(table, t)]).toEqual([t, up, down]);
        }
        expect(readUp(table, -7)).toBe(defined(table, 0).up);
        expect(readDown(table, -7)).toBe(defined(table, 0).down);
      }),
      { numRuns: 500 },
    );
  });

  it('is inverted to the minute', () => {
    fc.assert(
      fc.property(anyTable, (table) => {
        const minutes = minutesOf(table);
        const read = minutes.map((t) => defined(table, t));
        const { values } = table;
        for (let to = values[0] - 2; to <= values[values.length - 1] + 2; to += 1) {
          const reaching = read.findIndex(({ down }) => down >= to);
          const opened = read.findLastIndex(({ up }) => up <= to);
          // Anchors before minute 0 read minute 0, those after the table its end.
          const first = reaching < 0 ? Infinity : reaching === 0 ? -Infinity : reaching;
          const last = opened < 0 ? -Infinity : opened === minutes.length - 1 ? Infinity : opened;
          expect([to, firstReaching(table, to), lastOpened(table, to)]).toEqual([to, first, last]);
        }
      }),
      { numRuns: 500 },
    );
  });

  it('is exact where numbers are great', () => {
    const width = 2 ** 26 - 5;
    const table = lines([0, width, 2 ** 27], [0, 2 ** 26 + 33, 2 ** 28]);
    for (const t of [1, 2, 977, width - 977, width - 2, width - 1, width + 1, 2 ** 27 - 1]) {
      const { up, down } = defined(table, t);
      expect([readUp(table, t), readDown(table, t)]).toEqual([up, down]);
      expect(readDown(table, firstReaching(table, down))).toBe(down);
      expect(readUp(table, lastOpened(table, up))).toBe(up);
    }
  });

  it('finds its knots however unevenly they lie', () => {
    const at = [0, 1, 2, 3, 5, 8, 1_000, 1_001, 1_002, 900_000, 900_001, 1_000_000];
    const table = lines(
      at,
      at.map((minute, k) => minute + 10 * k),
    );
    for (const minute of at)
      for (const t of [minute, minute + 1, Math.max(0, minute - 1)])
        expect([t, readUp(table, t)]).toEqual([t, defined(table, t).up]);
  });
});
