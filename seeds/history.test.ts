import { describe, expect, it } from 'vitest';
import { random, type Random } from '#kernel/random.ts';
import { compile } from '#planning/compile/compile.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import type { Task, Workload } from '#planning/workload/workload.ts';
import { yardSchema, type Yard } from '#planning/yard/yard.ts';
import { check } from '#scheduling/checker/check.ts';
import { validate } from '#scheduling/model/validate.ts';
import { solve } from '#scheduling/solve.ts';
import { demoYard } from './demo-yard.ts';
import { generateYard } from './generate/yard.ts';

const MINUTE = 60_000;

/** A yard without windows that close, so that nothing can be too late, and with time enough. */
function patient(yard: Yard): Yard {
  for (const procedure of yard.procedures) {
    for (const link of procedure.links) link.closes = null;
    procedure.links = procedure.links.filter(({ opens }) => opens !== null);
  }
  yard.horizonDays += 40;
  return yard;
}

/** Some tasks done or begun in the order of the links, at times and by people that keep no rule. */
function lived(yard: Yard, made: Workload, now: number, draw: Random): Workload {
  const people = yard.people.filter(({ roles }) => roles.includes('builder')).map(({ id }) => id);
  const before = Map.groupBy(made.links, ({ to }) => to);
  const over = new Set<string>();
  const iso = (at: number): string => new Date(at).toISOString();
  const tasks = made.tasks.map((task): Task => {
    const free = (before.get(task.id) ?? []).every(({ from }) => over.has(from));
    const luck = draw.below(10);
    if (!free || luck >= 8) return task;
    const crew = task.skill === null ? [] : [people[draw.below(people.length)]];
    if (luck >= 6) {
      const startedAt = iso(now - draw.below(200) * MINUTE);
      return { ...task, state: 'working', startedAt, crew };
    }
    over.add(task.id);
    const start = now - (1 + draw.below(3000)) * MINUTE;
    const finish = Math.min(now, start + (crew.length === 0 ? 0 : 1 + draw.below(300)) * MINUTE);
    return { ...task, state: 'done', startedAt: iso(start), finishedAt: iso(finish), crew };
  });
  return { ...made, tasks };
}

describe('whatever has happened', () => {
  it.each(Array.from({ length: 16 }, (_, k) => k + 1))('there is a plan (seed %i)', (seed) => {
    const draw = random(seed);
    const yard = patient(
      seed % 2 === 0
        ? yardSchema.parse(demoYard)
        : generateYard({ tasks: 40, boats: 2, tightness: 'loose', season: 'cold', seed }),
    );
    const now = Date.parse(yard.planFrom) + (draw.below(3) * 2000 + draw.below(600)) * MINUTE;
    const instant = new Date(now).toISOString();
    const workload = lived(yard, makeWorkload(yard), now, draw);
    const from = draw.below(2) === 0 ? undefined : instant;
    const { problem } = compile({ yard, workload, now: instant, from });
    expect(validate(problem)).toEqual([]);
    const begun = problem.activities.filter(({ fixed }) => fixed?.kind === 'frozen');
    expect(begun.length).toBeGreaterThan(0);
    const { plan } = solve(problem, { seed: 1, iterations: 1 });
    expect(plan === null ? 'no plan' : check(problem, plan)).toEqual([]);
  });
});
