import { describe, expect, it } from 'vitest';
import { random } from '#kernel/random.ts';
import { compile } from '#planning/compile/compile.ts';
import { tryPlacement, type TriedPlacement } from '#planning/decode/placing/try-placement.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import { yardSchema } from '#planning/yard/yard.ts';
import { check } from '#scheduling/checker/check.ts';
import { justify } from '#scheduling/explanation/justify.ts';
import type { Plan } from '#scheduling/model/plan.ts';
import { solve } from '#scheduling/solve.ts';
import { demoYard } from './demo-yard.ts';
import { generateYard } from './generate/yard.ts';

const yards = [
  ['the demo yard', yardSchema.parse(demoYard)],
  [
    '40 tasks, cold',
    generateYard({ tasks: 40, boats: 2, tightness: 'tight', season: 'cold', seed: 8 }),
  ],
] as const;

/** How often a task is put somewhere at random. */
const TRIES = 80;

describe.each(yards)('tasks of %s put elsewhere by hand', (_, yard) => {
  const { problem, map } = compile({ yard, workload: makeWorkload(yard) });
  const found = solve(problem, { seed: 1, iterations: 16 });
  if (found.plan === null) throw new Error('no plan was found');
  const plan = justify(problem, found.plan);
  const origin = Date.parse(map.origin);
  const minute = ({ at }: { readonly at: string }): number => (Date.parse(at) - origin) / 60_000;
  const ask = (task: string, start?: number, crew?: readonly string[]): TriedPlacement => {
    const tried = tryPlacement({
      problem,
      plan,
      map,
      task,
      crew,
      start: start === undefined ? undefined : new Date(origin + start * 60_000).toISOString(),
      now: null,
      hasBegun: false,
    });
    if (tried === null) throw new Error(`the plan lacks ${task}`);
    return tried;
  };

  /** The plan with what was answered, put together here from the answer alone. */
  function answered(tried: TriedPlacement): Plan {
    const activity = map.tasks.indexOf(tried.task);
    const crew = tried.crew.map(({ personId }) => map.people.indexOf(personId));
    const placements = plan.placements.map((one) =>
      one.activity === activity
        ? {
            ...one,
            start: minute(tried.start),
            finish: minute(tried.finish),
            segments: tried.segments.map(({ start, finish }) => ({
              start: minute(start),
              end: minute(finish),
            })),
            crew: crew.map((builder) => ({ builder, demand: 0 })),
          }
        : one,
    );
    return { ...plan, placements };
  }

  it('fit where the plan has them', () => {
    for (const { activity, start } of plan.placements) {
      const tried = ask(map.tasks[activity]);
      expect([tried.task, tried.against]).toEqual([tried.task, []]);
      expect(minute(tried.start)).toBe(start);
    }
  });

  it('fit no minute earlier, as nothing in the plan waits without a reason', () => {
    for (const { activity, start } of plan.placements) {
      if (start === 0) continue;
      const tried = ask(map.tasks[activity], start - 1);
      expect(tried.isPossible && minute(tried.start) < start ? tried.task : '').toBe('');
    }
  });

  it('are judged as the checker judges, each finding in words', () => {
    const dice = random(11);
    let possible = 0;
    const reasons = new Set<string>();
    for (let k = 0; k < TRIES; k += 1) {
      const placed = plan.placements[dice.below(plan.placements.length)];
      const away = dice.below(2) === 0 ? 240 : 5 * 1440;
      const start = Math.max(0, placed.start + dice.below(2 * away) - away);
      const tried = ask(map.tasks[placed.activity], start);
      expect(minute(tried.start)).toBeGreaterThanOrEqual(start);
      for (const { words, row, reason } of tried.against) {
        expect(words).not.toMatch(/undefined|null|NaN|^$/);
        expect(row?.name ?? '').not.toBe('');
        reasons.add(reason.split(':')[0]);
      }
      if (tried.isPossible) {
        possible += 1;
        // Slots are chosen anew; everything else is in the answer.
        const wrong = check(problem, answered(tried)).map(({ kind }) => kind);
        expect(wrong.filter((kind) => kind !== 'values' && kind !== 'slot')).toEqual([]);
      } else expect(tried.against.length).toBeGreaterThan(0);
      if (tried.next !== null) {
        const next = ask(tried.task, minute(tried.next));
        expect([next.isPossible, next.start]).toEqual([true, tried.next]);
        expect(minute(tried.next)).toBeGreaterThan(minute(tried.start));
      }
    }
    expect(possible).toBeGreaterThan(0);
    expect(reasons.size).toBeGreaterThan(3);
  });
});
