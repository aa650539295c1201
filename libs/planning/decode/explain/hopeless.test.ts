import { describe, expect, it } from 'vitest';
import type { Constraint } from '#scheduling/model/constraint.ts';
import type { Infeasibility } from '#scheduling/model/plan.ts';
import { compile, type Compiled } from '../../compile/compile.ts';
import { smallYard } from '../../testing/small-yard.ts';
import { makeWorkload } from '../../workload/make.ts';
import type { Workload } from '../../workload/workload.ts';
import { hopelessLinks } from './hopeless.ts';

const yard = smallYard((draft) => {
  const [procedure] = draft.procedures;
  procedure.choices = [];
  procedure.steps = procedure.steps.filter(({ id }) => id !== 'key');
  procedure.links = procedure.links.filter(({ id }) => id === 'sand-one' || id === 'bond');
});

/** Coat one was done from nine to ten. */
const begun: Workload = ((workload) => ({
  ...workload,
  tasks: workload.tasks.map((task) => {
    if (task.stepId === 'two') return task;
    const [startedAt, finishedAt] =
      task.stepId === 'one'
        ? ['2026-11-02T09:00:00.000Z', '2026-11-02T10:00:00.000Z']
        : ['2026-11-02T08:00:00.000Z', '2026-11-02T08:50:00.000Z'];
    return { ...task, state: 'done' as const, startedAt, finishedAt };
  }),
}))(makeWorkload(yard));
const compiled = compile({ yard, workload: begun, now: '2026-11-02T11:00:00Z' });
const { problem, map } = compiled;

const lagWhere = (test: (lag: (typeof problem.lags)[number]) => boolean): Constraint => {
  const lag = problem.lags.findIndex(test);
  if (lag < 0) throw new Error('there is no such lag');
  return { kind: 'lag', lag };
};
const closes = lagWhere(({ bound }) => bound === 'close');
const opens = lagWhere(
  ({ bound, to }) => bound === 'open' && problem.activities[to].fixed === null,
);
const two = problem.activities.findIndex(({ fixed }) => fixed === null);

const clash = (...constraints: Constraint[]): Infeasibility => ({
  irreducible: true,
  constraints,
  activities: [],
});
/** With coat two, or its order, as the foreman would have it. */
const altered = (change: (of: Compiled['problem']) => Compiled['problem']) => ({
  map,
  problem: change(problem),
});

describe('windows that no plan keeps', () => {
  it('are those of a contradiction that lead from what was done to what waits', () => {
    const found = hopelessLinks(compiled, clash(closes, opens, { kind: 'crew', activity: two }));
    expect(found).toEqual([map.lags[closes.kind === 'lag' ? closes.lag : -1]]);
    expect(found[0]).toMatch(/\.bond$/);
  });

  it('are none where the contradiction was not shown to be one, or is of other things', () => {
    expect(hopelessLinks(compiled, { ...clash(closes), irreducible: false })).toEqual([]);
    expect(hopelessLinks(compiled, clash(opens))).toEqual([]);
  });

  it('are none between two tasks that both wait', () => {
    const waiting = altered((of) => ({
      ...of,
      activities: of.activities.map((one) => ({ ...one, fixed: null })),
    }));
    expect(hopelessLinks(waiting, clash(closes))).toEqual([]);
  });

  it('are none beside a moment or an order that was set', () => {
    const fixed = altered((of) => ({
      ...of,
      activities: of.activities.map((one, a) =>
        a === two
          ? { ...one, fixed: { kind: 'set', start: 600, finish: null, builders: null } as const }
          : one,
      ),
    }));
    expect(hopelessLinks(fixed, clash(closes, { kind: 'fixed', activity: two }))).toEqual([]);
    expect(hopelessLinks(fixed, clash(closes, { kind: 'crew', activity: two }))).toEqual([]);
    const ordered = altered((of) => ({
      ...of,
      lags: of.lags.map((one, l) =>
        opens.kind === 'lag' && l === opens.lag ? { ...one, kind: 'order' } : one,
      ),
    }));
    expect(hopelessLinks(ordered, clash(closes, opens))).toEqual([]);
  });
});
