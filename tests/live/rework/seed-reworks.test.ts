import { describe, expect, it } from 'vitest';
import { compile } from '#planning/compile/compile.ts';
import { standing } from '#planning/decode/ready/standing.ts';
import { standingOf } from '#planning/compile/work/choices.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import type { Task, Workload } from '#planning/workload/workload.ts';
import { yardSchema, type Yard } from '#planning/yard/yard.ts';
import { check } from '#scheduling/checker/check.ts';
import { validate } from '#scheduling/model/validate.ts';
import { solve } from '#scheduling/solve.ts';
import { demoYard } from '#seeds/demo-yard.ts';
import { applyEdits } from '#live/edits/apply.ts';
import { snagKinds } from '#live/rework/defects.ts';
import { isWet } from '#live/rework/films.ts';
import { preparationFor } from '#live/rework/preparation-for.ts';
import { reworkFor } from '#live/rework/rework-for.ts';
import { shutWindows } from '#live/rework/shut.ts';
import { cannotLie } from '#live/rework/suspect.ts';

const MINUTE = 60_000;
const NOW = '2026-12-01T07:00:00.000Z';
const reworkId = '3f2a9c11-0000-4000-8000-000000000001';

/** The demo yard with one part and all its jobs, and time enough. */
function onlyPart(partId: string): Yard {
  const yard = yardSchema.parse(demoYard);
  yard.horizonDays = 35;
  for (const boat of yard.boats)
    for (const refit of boat.refits) {
      // Parts that its work joins stay, as bare parts.
      refit.parts = refit.parts.map((part) => (part.id === partId ? part : { ...part, jobs: [] }));
      for (const part of refit.parts)
        for (const job of part.jobs)
          job.after = job.after.filter((id) => part.jobs.some((other) => other.id === id));
    }
  return yard;
}

/** The work in an order that its links allow, the first way of each choice taken. */
function inOrder(workload: Workload): Task[] {
  const skipped = new Set(
    workload.choices.flatMap(({ branches }) => branches.slice(1).flatMap(({ tasks }) => tasks)),
  );
  const left = workload.tasks.filter(({ id }) => !skipped.has(id));
  const found: Task[] = [];
  while (left.length > 0) {
    const next = left.findIndex(({ id }) =>
      workload.links.every(({ from, to }) => to !== id || !left.some((task) => task.id === from)),
    );
    if (next < 0) throw new Error('a circle');
    found.push(...left.splice(next, 1));
  }
  return found;
}

/** So many of them done, one every two days up to now. */
function lived(made: Workload, order: readonly Task[], count: number): Workload {
  const done = new Map(order.slice(0, count).map(({ id }, k) => [id, k]));
  const tasks = made.tasks.map((task): Task => {
    const k = done.get(task.id);
    if (k === undefined) return task;
    const finish = Date.parse(NOW) - ((count - 1 - k) * 2880 + 60) * MINUTE;
    const iso = (at: number): string => new Date(at).toISOString();
    return {
      ...task,
      state: 'done',
      startedAt: iso(finish - (task.skill === null ? 0 : 30 * MINUTE)),
      finishedAt: iso(finish),
    };
  });
  return { ...made, tasks };
}

/** As the service does: what is late gets its preparation. */
function prepared(yard: Yard, workload: Workload): Workload {
  const windows = standing({ yard, workload, sheet: null, now: NOW }).windows();
  const { late } = shutWindows(workload, windows, () => false, new Date(NOW));
  return late.reduce((before, { linkIds }, k) => {
    const id = `5e0d0000-000${String(k)}`.padEnd(36, '0');
    const { edits } = preparationFor({ yard, workload: before, linkIds, reworkId: id });
    return applyEdits(yard, before, edits).workload;
  }, workload);
}

function plan(yard: Yard, workload: Workload): void {
  const { problem } = compile({ yard, workload, now: NOW });
  expect(validate(problem)).toEqual([]);
  const { plan: found } = solve(problem, { seed: 1, iterations: 1 });
  expect(found === null ? 'no plan' : check(problem, found)).toEqual([]);
}

const parts = yardSchema
  .parse(demoYard)
  .boats.flatMap(({ refits }) => refits.flatMap((refit) => refit.parts))
  .filter(({ jobs }) => jobs.length > 0);
/** One part for each set of procedures. */
const various = [
  ...new Map(
    parts.map((part) => [part.jobs.map(({ procedure }) => procedure).join('+'), part]),
  ).values(),
];

describe.each(various.map(({ id, name }) => [name, id] as const))(
  'rework of %s',
  (_name, partId) => {
    const yard = onlyPart(partId);
    const made = makeWorkload(yard);
    const order = inOrder(made);
    const part = parts.find(({ id }) => id === partId);

    it('compiles and has a plan, whatever is at fault, and nothing that is done again counts', () => {
      let tried = 0;
      order.forEach((task, k) => {
        if (task.skill === null || task.movesTo !== null) return;
        const kinds = snagKinds.filter((kind) => cannotLie(yard, task, kind) === null);
        // Just done, or with all that comes after it done as well; all of it, or a tenth.
        const count = k % 2 === 0 ? k + 1 : order.length;
        const areas = [null, (part?.areaM2 ?? 1) / 10];
        const workload = lived(made, order, count);
        const kind = kinds[k % kinds.length];
        for (const areaM2 of k % 4 < 2 ? areas : areas.toReversed().slice(1)) {
          const { edits, words } = reworkFor({
            yard,
            workload,
            taskId: task.id,
            cause: 'snag',
            defect: kind,
            areaM2,
            reworkId,
          });
          expect(words).not.toMatch(/undefined|null|NaN/);
          const after = applyEdits(yard, workload, edits).workload;
          const { dropped } = standingOf(after);
          const counting = after.tasks.filter(
            ({ id, state }) => state !== 'redo' && !dropped.has(id),
          );
          // Whatever was done is done, or done again by exactly one task.
          for (const id of edits.redo)
            expect(counting.filter(({ replaces }) => replaces === id)).toHaveLength(1);
          expect(edits.addTasks.every(({ rework }) => rework === reworkId)).toBe(true);
          if (isWet(task)) expect(edits.addTasks.some(({ air }) => air === 'dusty')).toBe(true);
          plan(yard, prepared(yard, after));
          tried += 1;
        }
      });
      expect(tried).toBeGreaterThan(partId === 'kornog-hull' ? 3 : 8);
    });
  },
);
