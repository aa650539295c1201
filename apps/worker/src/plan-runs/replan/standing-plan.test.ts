import { describe, expect, it } from 'vitest';
import { type PlacedTask, replanted } from '#live/disturbance/replant.ts';
import { compile } from '#planning/compile/compile.ts';
import { makeSheet } from '#planning/decode/make-sheet.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import { readYard } from '#planning/yard/read.ts';
import { yardOfOne } from '#seeds/yard-of-one.ts';
import { solve } from '#scheduling/solve.ts';
import { standingPlan } from './standing-plan.ts';

const yard = readYard(yardOfOne, 'yard of one');
const workload = makeWorkload(yard);
const compiled = compile({ yard, workload });
const { problem, map } = compiled;
const result = solve(problem, { seed: 1, iterations: 64 });
const { plan } = result;
if (plan === null) throw new Error('the yard of one can be planned');
const taken = makeSheet({ compiled, result, yard, workload }).choices;

const instant = (minute: number): string =>
  new Date(Date.parse(map.origin) + minute * 60_000).toISOString();
const placed: PlacedTask[] = plan.placements.map((one) => ({
  task: map.tasks[one.activity],
  start: instant(one.start),
  finish: instant(one.finish),
  segments: one.segments.map(({ start, end }) => ({ start: instant(start), end: instant(end) })),
  people: one.crew.map(({ builder, demand }) => ({ person: map.people[builder], demand })),
  overtime: one.overtime,
  slot: one.slot,
}));

describe('a stored plan in the problem of now', () => {
  it('is the plan that it was, where nothing has happened', () => {
    const { placements, branches, finishes } = plan;
    expect(replanted(problem, map, placed, taken)).toEqual({ placements, branches, finishes });
    expect(standingPlan(compiled, { placed, taken })).toEqual(plan);
  });

  it('still stands a quarter of an hour into it, and no longer', () => {
    const begin = Math.min(...plan.placements.map(({ start }) => start));
    const after = (minutes: number) =>
      standingPlan(compile({ yard, workload, now: instant(begin + minutes) }), { placed, taken });
    expect(after(15)).not.toBeNull();
    expect(after(16)).toBeNull();
  });

  it('has what has begun where it really was', () => {
    const [first] = placed;
    const late = instant((Date.parse(first.start) - Date.parse(map.origin)) / 60_000 + 30);
    const begun = {
      ...workload,
      tasks: workload.tasks.map((task) =>
        task.id === first.task
          ? {
              ...task,
              state: 'working' as const,
              startedAt: late,
              crew: first.people.map(({ person }) => person),
            }
          : task,
      ),
    };
    const now = compile({ yard, workload: begun, now: late });
    const again = replanted(now.problem, now.map, placed, taken);
    const activity = now.map.tasks.indexOf(first.task);
    const there = again?.placements.find((one) => one.activity === activity);
    expect(there?.start).toBe((Date.parse(late) - Date.parse(map.origin)) / 60_000);
  });

  it('is none where it says nothing of work, or names somebody who is gone', () => {
    expect(replanted(problem, map, placed.slice(1), taken)).toBeNull();
    const [first, ...others] = placed;
    const stranger = { ...first, people: [{ person: 'nobody', demand: 0 }] };
    expect(replanted(problem, map, [stranger, ...others], taken)).toBeNull();
  });
});
