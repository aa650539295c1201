import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { check } from '#scheduling/checker/check.ts';
import type { Plan, Placement } from '#scheduling/model/plan.ts';
import type { Interval, Problem } from '#scheduling/model/problem.ts';
import { validate } from '#scheduling/model/validate.ts';
import { solve } from '#scheduling/solve.ts';
import { readBenchmark } from '../../apps/cli/solve/solveFile.ts';
import { calendarRules } from './rules/calendars.ts';
import { optionRules } from './rules/options.ts';
import { lagRules, singleModeRules } from './rules/projects.ts';
import { asDone, type Done, type Rules } from './rules/schedule.ts';
import { skillRules } from './rules/skills.ts';

/**
 * Small files of our own, every schedule of which is tried: the rules of the format, played from
 * the file's text, and our reading of it (problem and checker) give the same verdict, and the
 * least makespan found so is the engine's.
 */
const path = (name: string): string => new URL(`fixtures/${name}`, import.meta.url).pathname;
const text = (name: string): string => readFileSync(path(name), 'utf8');

/** All lists with one item of each list. */
function* product<T>(lists: readonly (readonly T[])[], taken: readonly T[] = []): Generator<T[]> {
  if (taken.length === lists.length) yield [...taken];
  else for (const item of lists[taken.length]) yield* product(lists, [...taken, item]);
}

const upTo = (n: number): number[] => Array.from({ length: n }, (_, i) => i);

interface Tried extends Done {
  /** Where it works; in one piece unless given. */
  readonly segments?: readonly Interval[];
}

function planOf(problem: Problem, done: readonly Tried[]): Plan {
  const placements = done
    .map(({ task, option, start, end, people, segments }): Placement => {
      const activity = problem.activities.findIndex(({ id }) => id === String(task));
      const { crew } = problem.activities[activity].modes[option];
      return {
        activity,
        mode: option,
        start,
        finish: end,
        segments: segments ?? (end > start ? [{ start, end }] : []),
        crew: people.map(({ person, skill }) => ({
          builder: person - 1,
          demand: crew.findIndex((demand) => demand.skill === skill - 1),
        })),
        overtime: false,
        slot: null,
      };
    })
    .sort((a, b) => a.activity - b.activity);
  const makespan = Math.max(...done.map(({ end }) => end));
  return { placements, branches: [], finishes: [makespan], values: [0, makespan, 0, 0] };
}

interface Count {
  right: number;
  wrong: number;
  least: number;
}

/** Compares the two verdicts of each schedule; of the wrong ones every so manieth. */
function compare(
  problem: Problem,
  rules: Rules,
  schedules: Iterable<readonly Tried[]>,
  every: number,
): Count {
  const count = { right: 0, wrong: 0, least: Infinity };
  for (const done of schedules) {
    const complaints = rules(done);
    const right = complaints.length === 0;
    if (right) {
      count.right += 1;
      count.least = Math.min(count.least, ...[Math.max(...done.map(({ end }) => end))]);
    } else {
      count.wrong += 1;
      if (count.wrong % every !== 0) continue;
    }
    const violations = check(problem, planOf(problem, done)).map(({ message }) => message);
    if (right !== (violations.length === 0)) expect({ done, complaints }).toEqual(violations);
  }
  return count;
}

/** The engine proves the makespan, by a plan that both the checker and the file's rules accept. */
function expectSolved(problem: Problem, rules: Rules, makespan: number): void {
  expect(validate(problem)).toEqual([]);
  const { status, plan } = solve(problem, { seed: 1, iterations: 20_000 });
  expect(plan?.finishes).toEqual([makespan]);
  expect(status).toBe('optimal');
  if (plan === null) return;
  expect(check(problem, plan)).toEqual([]);
  expect(rules(asDone(problem, plan))).toEqual([]);
}

describe.each([
  ['small.sm', singleModeRules],
  ['window.sch', lagRules],
] as const)('single-mode file %s', (name, read) => {
  const problem = readBenchmark(path(name));
  const rules = read(text(name));

  it('the best schedule and all beside it, each job up to two periods off, are judged alike', () => {
    const { plan } = solve(problem, { seed: 1, iterations: 20_000 });
    const best = plan === null ? [] : asDone(problem, plan);
    expect(best).toHaveLength(problem.activities.length);
    const ways = best.map((one, k) =>
      // The dummies stay: later than the last of them is beyond the horizon.
      [-1, 0, 1, 2].flatMap((off) =>
        (off !== 0 && (k === 0 || k === best.length - 1)) || one.start + off < 0
          ? []
          : [{ ...one, start: one.start + off, end: one.end + off }],
      ),
    );
    const { right, wrong } = compare(problem, rules, product(ways), 1);
    expect(right).toBeGreaterThan(0);
    expect(wrong).toBeGreaterThan(40);
    expect(rules(best)).toEqual([]);
    expect(rules(best.slice(1))).not.toEqual([]);
    expect(rules(best.map((one) => ({ ...one, end: one.end + 1 })))).not.toEqual([]);
  });
});

describe('multi-mode files', () => {
  const problem = readBenchmark(path('options.dzn'));
  const rules = optionRules(text('options.dzn'));
  const options = problem.activities.map(({ modes }) => modes.map(({ duration }) => duration));

  it('every schedule is judged alike, and the least makespan is found', () => {
    const ways = options.map((durations, i) =>
      durations.flatMap((duration, option) =>
        upTo(9).map((start) => ({
          task: i + 1,
          option,
          start,
          end: start + duration,
          people: [],
        })),
      ),
    );
    const { right, wrong, least } = compare(problem, rules, product(ways), 20);
    expect(right).toBeGreaterThan(100);
    expect(wrong).toBeGreaterThan(100);
    expectSolved(problem, rules, least);
  });
});

describe('multi-skill files', () => {
  const crews: readonly (readonly Done['people'][])[] = [
    [[{ person: 1, skill: 1 }], [{ person: 2, skill: 1 }], [{ person: 3, skill: 1 }]],
    [[{ person: 2, skill: 2 }], [{ person: 3, skill: 2 }]],
    [
      [
        { person: 1, skill: 1 },
        { person: 2, skill: 2 },
      ],
      [
        { person: 2, skill: 1 },
        { person: 2, skill: 2 },
      ],
      [
        { person: 2, skill: 1 },
        { person: 3, skill: 2 },
      ],
      [{ person: 2, skill: 1 }],
    ],
    [
      [
        { person: 1, skill: 1 },
        { person: 2, skill: 1 },
      ],
    ],
    [
      [
        { person: 2, skill: 2 },
        { person: 3, skill: 2 },
      ],
    ],
  ];
  const durations = [2, 3, 2, 1, 1];

  it('every schedule is judged alike, and the least makespan is found', () => {
    const problem = readBenchmark(path('skills.dzn'));
    const rules = skillRules(text('skills.dzn'));
    const ways = crews.map((teams, i) =>
      teams.flatMap((people) =>
        upTo(6).map((start) => ({
          task: i + 1,
          option: 0,
          start,
          end: start + durations[i],
          people,
        })),
      ),
    );
    const { right, wrong, least } = compare(problem, rules, product(ways), 50);
    expect(right).toBeGreaterThan(100);
    expect(wrong).toBeGreaterThan(100);
    expectSolved(problem, rules, least);
  });

  it('both dialects say the same', () => {
    const [collection, library] = ['skills.dzn', 'mastery.dzn'].map((name) => {
      const problem = readBenchmark(path(name));
      return { problem, result: solve(problem, { seed: 1, iterations: 20_000 }) };
    });
    expect(library.problem.builders.map(({ abilities }) => abilities)).toEqual(
      collection.problem.builders.map(({ abilities }) => abilities),
    );
    const real = library.problem.activities.slice(1, -1);
    expect(real.map(({ modes }) => modes)).toEqual(
      collection.problem.activities.map(({ modes }) => modes),
    );
    expect(library.result.plan?.finishes).toEqual(collection.result.plan?.finishes);
    const { plan } = library.result;
    expect(plan && skillRules(text('mastery.dzn'))(asDone(library.problem, plan))).toEqual([]);
  });
});

describe.each(['elapsed', 'working'])('calendar files, lags in %s time', (lags) => {
  const problem = readBenchmark(path(`${lags}.json`));
  const rules = calendarRules(text(`${lags}.json`), text('calendars.sch'));
  // Periods in which 1..4 can work: both resources, the first, the second, both.
  const both = '11100101100111';
  const works = [both, '11100111101111', '11111101110111', both];
  const durations = [2, 3, 2, 2];
  const waits = [true, true, false, true];
  const start = { task: 0, option: 0, start: 0, end: 0, people: [] };

  /** Works in every period it can until done; what may not wait runs on regardless. */
  function worked(i: number, from: number): Tried {
    const segments: { start: number; end: number }[] = [];
    let left = durations[i];
    let t = from;
    for (; left > 0 && t < 40; t += 1) {
      if (waits[i] && t < 14 && works[i][t] !== '1') continue;
      left -= 1;
      const before = segments.at(-1);
      if (before?.end === t) before.end = t + 1;
      else segments.push({ start: t, end: t + 1 });
    }
    return { task: i + 1, option: 0, start: from, end: t, people: [], segments };
  }

  it('every schedule is judged alike, and the least makespan is found', () => {
    const ways = durations.map((_, i) => upTo(14).map((from) => worked(i, from)));
    function* schedules(): Generator<Tried[]> {
      for (const done of product(ways)) yield [start, ...done];
    }
    const { right, wrong, least } = compare(problem, rules, schedules(), 20);
    expect(right).toBeGreaterThan(20);
    expect(wrong).toBeGreaterThan(100);
    expectSolved(problem, rules, least);
  });
});
