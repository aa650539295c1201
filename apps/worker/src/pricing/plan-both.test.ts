import { describe, expect, it } from 'vitest';
import { editsOfChange } from '#live/change/change-edits.ts';
import type { ChangeInput } from '#live/change/change-input.ts';
import { applyEdits } from '#live/edits/apply.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import { readYard } from '#planning/yard/read.ts';
import { demoYard } from '#seeds/demo-yard.ts';
import { planBoth, type Planner } from './plan-both.ts';

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

const priceOfChange = (input: ChangeInput, by: Planner = planner) => {
  const changed = applyEdits(yard, without.workload, editsOfChange(yard, input));
  return planBoth({ without, changed, published: null }, new Date(0), by);
};

/** The first two plans are found; `fails` is what then goes wrong. */
function failsInThird(fails: () => Error): { readonly by: Planner; readonly said: string[] } {
  let left = 2;
  const said: string[] = [];
  const by = {
    ...planner,
    iterations: 20,
    say: (line: string) => void said.push(line),
    get threads() {
      left -= 1;
      if (left < 0) throw fails();
      return planner.threads;
    },
  };
  return { by, said };
}

describe('two plans for a price', () => {
  it('leave boats as they are that the change has nothing to do with', async () => {
    const price = await priceOfChange({ kind: 'size', partId: 'kornog-overhead', areaM2: 11.4 });
    expect(price.work.some(({ minutes }) => minutes > 0)).toBe(true);
    const others = price.boats.filter(({ boatId }) => boatId !== 'kornog');
    expect(others).toHaveLength(2);
    expect(others.map(({ minutes }) => minutes)).toEqual([0, 0]);
  }, 60_000);

  const larger = { kind: 'size', partId: 'kornog-overhead', areaM2: 11.4 } as const;

  it('are enough where a search that could only better them fails', async () => {
    const { by, said } = failsInThird(() => new Error('no thread to be had'));
    const price = await priceOfChange(larger, by);
    expect(price.work.some(({ minutes }) => minutes > 0)).toBe(true);
    expect(said.join()).toContain('no thread to be had');
  }, 60_000);

  it('are not told where everything was to end', async () => {
    const ending = new AbortController();
    const { by } = failsInThird(() => {
      ending.abort();
      return new Error('ended');
    });
    Object.assign(by, { signal: ending.signal });
    await expect(priceOfChange(larger, by)).rejects.toThrow('ended');
  }, 60_000);
});
