import { describe, expect, it } from 'vitest';
import { editsOfChange } from '#live/change/change-edits.ts';
import type { ChangeInput } from '#live/change/change-input.ts';
import { applyEdits } from '#live/edits/apply.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import { readYard } from '#planning/yard/read.ts';
import { demoYard } from '#seeds/demo-yard.ts';
import { planBoth } from './plan-both.ts';

const yard = readYard(demoYard, 'demo yard');
const without = { yard, workload: makeWorkload(yard) };

/** Less than would find the best plans, so that something is left to luck. */
const planner = {
  say: () => undefined,
  iterations: 150,
  seconds: 60,
  threads: 2,
  memoryMB: null,
  signal: new AbortController().signal,
};

const priceOfChange = (input: ChangeInput) => {
  const changed = applyEdits(yard, without.workload, editsOfChange(yard, input));
  return planBoth({ without, changed, published: null }, new Date(0), planner);
};

describe('two plans for a price', () => {
  it('leave boats as they are that the change has nothing to do with', async () => {
    const price = await priceOfChange({ kind: 'size', partId: 'kornog-overhead', areaM2: 11.4 });
    expect(price.work.some(({ minutes }) => minutes > 0)).toBe(true);
    const others = price.boats.filter(({ boatId }) => boatId !== 'kornog');
    expect(others).toHaveLength(2);
    expect(others.map(({ minutes }) => minutes)).toEqual([0, 0]);
  }, 60_000);
});
