import { describe, expect, it } from 'vitest';
import { DomainError } from '#kernel/error.ts';
import { compile } from '#planning/compile/compile.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import { readYard } from '#planning/yard/read.ts';
import { yardOfOne } from '#seeds/yard-of-one.ts';
import { solve } from '#scheduling/solve.ts';
import { outcomeOf, outcomeOfError } from './outcome.ts';

const yard = readYard(yardOfOne, 'yard of one');
const workload = makeWorkload(yard);
const compiled = compile({ yard, workload });
const result = {
  ...solve(compiled.problem, { seed: 1, iterations: 64 }),
  firstPlanMs: 1,
  earliest: null,
  shortOfMemory: false,
};
const taken = { yard, workload };

describe('the outcome of a run', () => {
  it('is the plan, in the yard’s words too', () => {
    const outcome = outcomeOf(taken, compiled, result, false);
    expect(outcome).toMatchObject({ status: 'finished', sheet: { yard: yard.name } });
    expect(outcomeOf(taken, compiled, result, true)).toMatchObject({ status: 'stopped' });
  });

  it('is no plan that the checker rejects', () => {
    const { plan } = result;
    expect(plan).not.toBeNull();
    if (plan === null) return;
    // One activity a minute early: its segments are no longer from its start to its finish.
    const [first, ...others] = plan.placements;
    const wrong = { ...plan, placements: [{ ...first, start: first.start - 1 }, ...others] };
    const outcome = outcomeOf(taken, compiled, { ...result, plan: wrong }, false);
    expect(outcome).toMatchObject({ status: 'failed', why: { faults: [] } });
    expect(outcome.status === 'failed' && outcome.why?.lines.length).toBeGreaterThan(0);
  });

  it('says so where time was too short, or the foreman’s patience', () => {
    const none = { ...result, status: 'unknown' as const, plan: null };
    expect(outcomeOf(taken, compiled, none, false)).toMatchObject({ status: 'failed', why: null });
    expect(outcomeOf(taken, compiled, none, true)).toMatchObject({
      status: 'stopped',
      sheet: null,
    });
  });

  it('tells the faults of a yard, and of a fault of the program only an id', () => {
    const said: string[] = [];
    const say = (line: string): void => {
      said.push(line);
    };
    const refused = outcomeOfError(new DomainError('yard.empty', 'Nothing to do.'), say);
    expect(refused).toMatchObject({
      error: 'Nothing to do.',
      why: { faults: [{ code: 'yard.empty', path: '' }] },
    });
    expect(said).toEqual([]);
    const broken = outcomeOfError(new TypeError('secret is undefined'), say);
    expect(broken).toMatchObject({ status: 'failed', why: null });
    const told = broken.status === 'failed' ? broken.error : '';
    expect(told).not.toContain('secret');
    expect(said[0]).toContain('secret is undefined');
    expect(told).toContain(said[0].split(' ')[0]);
  });
});
