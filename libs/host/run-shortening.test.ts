import { describe, expect, it } from 'vitest';
import { whatShortens } from '#planning/decode/explain/what-shortens.ts';
import { compiled } from '#planning/testing/compiled.ts';
import { create, solve } from '#scheduling/solve.ts';
import { runShortening } from './run-shortening.ts';

const { problem, map } = compiled();
const { plan } = solve(problem, { seed: 1, iterations: 8 });
if (plan === null) throw new Error('there is a plan');
const order = { problem, plan, map, refit: null, seed: 1, iterations: 8 };

describe('what shortens a plan, in a thread', { timeout: 60_000 }, () => {
  it('is what it is without one, also after one that failed and one that was stopped', async () => {
    const failing = runShortening({ ...order, problem: { ...problem, tables: [] } });
    const cancel = new AbortController();
    const stopped = runShortening({ ...order, iterations: 1_000_000 }, cancel.signal);
    const right = runShortening(order);
    await expect(failing).rejects.toThrow();
    cancel.abort(new Error('no longer asked'));
    await expect(stopped).rejects.toThrow('no longer asked');
    const found = whatShortens({
      ...order,
      replan: (of, from) => create(of, 1, from).step(8).plan,
    });
    expect(found).not.toEqual([]);
    expect(await right).toEqual(found);
    expect(await runShortening({ ...order, refit: 'nobody' })).toBeNull();
  });
});
