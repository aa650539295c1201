import { afterEach, describe, expect, it } from 'vitest';
import type { Problem } from '#scheduling/model/problem.ts';
import { madeUpYard } from '#scheduling/testing/made-up-yard.ts';
import { solve } from '#scheduling/solve.ts';
import { runSolve } from '../run-solve.ts';
import { keepThread, type KeptThread } from './kept.ts';

const timeout = 60_000;
const iterations = 40;
let kept: KeptThread;

afterEach(() => kept.end());

async function expectRight(of: Problem, seed: number): Promise<void> {
  const run = await runSolve(of, { seed, iterations, threads: 1, kept });
  const { firstPlanMs, earliest, shortOfMemory, ...result } = run;
  expect(result).toEqual(solve(of, { seed, iterations }));
  expect(firstPlanMs).toBeGreaterThan(0);
  expect(earliest).toHaveLength(of.refits.length);
  expect(shortOfMemory).toBe(false);
}

/** The thread that stands by; it stays there. */
function standing(): number | null {
  const worker = kept.take(null);
  if (worker !== null) kept.giveBack(worker, true);
  return worker?.threadId ?? null;
}

describe('a thread that is kept', () => {
  it('leads one run after another, each as a new one would', { timeout }, async () => {
    kept = keepThread(null, 1);
    const before = standing();
    await expectRight(madeUpYard(2, 5), 4);
    await expectRight(madeUpYard(2, 4), 7);
    expect(before).not.toBeNull();
    expect(standing()).toBe(before);
  });

  it('is one run’s at a time, and of runs of its limits', { timeout }, async () => {
    kept = keepThread(null, 1);
    await Promise.all([expectRight(madeUpYard(2, 5), 4), expectRight(madeUpYard(2, 4), 7)]);
    const worker = kept.take(null);
    expect(kept.take(null)).toBeNull();
    if (worker !== null) kept.giveBack(worker, true);
    expect(kept.take(100)).toBeNull();
  });

  it('is another one after a run that failed', { timeout }, async () => {
    kept = keepThread(null, 1);
    const before = standing();
    const broken: Problem = { ...madeUpYard(2, 1), tables: [] };
    const failing = runSolve(broken, { seed: 1, iterations: 5, threads: 1, kept });
    await expect(failing).rejects.toThrow(TypeError);
    expect(standing()).not.toBe(before);
    await expectRight(madeUpYard(2, 5), 4);
  });
});
