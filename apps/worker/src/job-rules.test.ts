import { describe, expect, it } from 'vitest';
import { foreman, row } from '#access/rule.ts';
import { planRunQueue } from '#persistence/queue/plan-runs.ts';
import { jobRules } from './job-rules.ts';
import { queues } from './queues.ts';

const rules = [row('a.run', ['job a'], foreman, 'plan-run', null)];

describe('the rows of jobs', () => {
  it('are there for every queue of the worker', () => {
    const found = jobRules(queues);
    expect(found[planRunQueue.name]).toMatchObject({ operation: 'plan-runs.run', may: foreman });
  });

  it('keep the worker from starting where nobody decided', () => {
    expect(() => jobRules(['a', 'b'], rules)).toThrow('no row for "job b"');
  });

  it('keep it from starting where a row has no handler', () => {
    expect(() => jobRules([], rules)).toThrow('no handler for "job a"');
  });
});
