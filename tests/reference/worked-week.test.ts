import { beforeAll, describe, expect, it } from 'vitest';
import { compile } from '#planning/compile/compile.ts';
import { makeSheet } from '#planning/decode/make-sheet.ts';
import type { PlanSheet, SheetTask } from '#planning/decode/sheet.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import { check } from '#scheduling/checker/check.ts';
import { ranks } from '#scheduling/checker/values.ts';
import type { Constraint } from '#scheduling/model/constraint.ts';
import type { Plan } from '#scheduling/model/plan.ts';
import type { Problem } from '#scheduling/model/problem.ts';
import { without } from '#scheduling/model/without.ts';
import { solve } from '#scheduling/solve.ts';
import { workedWeek, type Otherwise } from './worked-week-yard.ts';

interface Week {
  readonly problem: Problem;
  readonly plan: Plan;
  readonly sheet: PlanSheet;
}

/**
 * The decisions are written down, with their numbers, in worked-week.md. `dropped`: the
 * constraints that a control does without.
 */
function planned(
  otherwise: Otherwise = {},
  dropped: (problem: Problem) => readonly Constraint[] = () => [],
): Week {
  const yard = workedWeek(otherwise);
  const workload = makeWorkload(yard);
  const whole = compile({ yard, workload });
  const gone = dropped(whole.problem);
  const problem = without(whole.problem, gone);
  const result = solve(problem, { seed: 1, iterations: 200 });
  if (result.plan === null) throw new Error('no plan');
  expect(check(problem, result.plan)).toEqual([]);
  const sheet = makeSheet({ compiled: { ...whole, problem }, result, yard, workload });
  return { problem, plan: result.plan, sheet };
}

function task({ sheet }: Week, id: string): SheetTask {
  const found = sheet.tasks.find((one) => one.id === id);
  if (found === undefined) throw new Error(`${id} is not done`);
  return found;
}

const start = (week: Week, id: string): string => task(week, id).start.local;
const lifted = (week: Week): (string | undefined)[] =>
  ['alca', 'sula'].map((boat) => task(week, `${boat}-lift.lift`).slot?.from.local.slice(5, 10));
const late = ({ sheet }: Week): number[] => sheet.boats.map(({ lateMinutes }) => lateMinutes);

const DAY = 1440;

/** The bounds of a link, of one side. */
const lagsOf =
  (link: string, bound: 'open' | 'close') =>
  ({ lags }: Problem): Constraint[] => {
    const found = lags.flatMap((lag, k): Constraint[] =>
      lag.source === `link:${link}` && lag.bound === bound ? [{ kind: 'lag', lag: k }] : [],
    );
    expect(found.length, link).toBeGreaterThan(0);
    return found;
  };

/** The starts that its material forbids to a task. */
const forbiddenTo =
  (id: string) =>
  ({ activities }: Problem): Constraint[] => {
    const activity = activities.findIndex((one) => one.id === id);
    return activities[activity].modes.flatMap(({ forbidden }, mode) =>
      forbidden.map((_, k) => ({ kind: 'forbidden' as const, activity, mode, forbidden: k })),
    );
  };

/**
 * The hull's temperature by the outdoor table alone, no lag: the coldest and warmest hour of three
 * around a moment, so that it errs to both sides.
 */
const yard = workedWeek();
function hullAt(local: string): { low: number; high: number } {
  const from = Date.parse(yard.outdoor?.from ?? '');
  const hour = Math.floor((Date.parse(`${local}:00Z`) - from) / 3_600_000);
  const near = (yard.outdoor?.celsius ?? []).slice(hour - 5, hour + 2).map((c) => c + 3);
  return { low: Math.min(...near), high: Math.max(...near) };
}

describe('the worked week', () => {
  let week: Week;
  beforeAll(() => {
    week = planned();
  });

  it('1: lays no polyester in the hull that would be below its minimum before it is set', () => {
    expect(hullAt('2026-11-04T04:00').high).toBeLessThan(12); // the night is what it is meant to be
    const { film, start: laid } = task(week, 'alca-bilge.coat');
    const set = film.find(({ milestone }) => milestone === 'tack-free')?.when?.local ?? '';
    for (const moment of [laid.local, set])
      expect(hullAt(moment).high, moment).toBeGreaterThanOrEqual(12);
    expect(laid.local > '2026-11-04T10:00', laid.local).toBe(true);
  });

  it('1, were it not for the cold: the coat would be laid on Tuesday or in the cold morning', () => {
    const warm = planned({}, forbiddenTo('alca-bilge.coat'));
    expect(start(warm, 'alca-bilge.coat') < '2026-11-04T10:00').toBe(true);
  });

  it('2: lays both coats of the locker on one day, the first early, and abrades nothing', () => {
    const [one, two] = ['alca-locker.one', 'alca-locker.two'].map((id) => start(week, id));
    expect(one > '2026-11-03T07:59').toBe(true);
    expect(one.slice(11) < '10:00').toBe(true);
    expect(two.slice(0, 10)).toBe(one.slice(0, 10));
    expect(week.sheet.choices.map(({ branch }) => branch)).toEqual(['bond']);
  });

  it('2, did the first coat bond for ever: the second would follow on another day', () => {
    const patient = planned({}, lagsOf('alca-locker.one-two', 'close'));
    const [one, two] = ['alca-locker.one', 'alca-locker.two'].map((id) => start(patient, id));
    expect(two.slice(0, 10) > one.slice(0, 10)).toBe(true);
  });

  it('3: does not cut the core before it is there, and does not wait for it', () => {
    const noon = '2026-11-04T12:00';
    expect(start(week, 'sula-panel.cut') >= noon).toBe(true);
    for (const id of ['alca-bulkhead.bed', 'alca-bulkhead.tab'])
      expect(task(week, id).finish.local < noon, id).toBe(true);
  });

  it('4: leaves the panel on its bench until it may be handled', () => {
    const skin = task(week, 'sula-panel.skin');
    const carry = task(week, 'sula-panel.carry');
    const handle = skin.film.find(({ milestone }) => milestone === 'handle')?.when?.local ?? '';
    expect(handle > '2026-11-05T00:00').toBe(true);
    expect(carry.start.local >= handle && carry.start.local >= '2026-11-05T08:00').toBe(true);
    expect(carry.movesTo?.spaceId).toBe('sula-inside');
    expect([skin.spaceId, task(week, 'sula-panel.bed').spaceId]).toEqual(['bench', 'sula-inside']);
  });

  it('4, could it be carried wet: it would be in the boat on Wednesday', () => {
    const wet = planned({}, lagsOf('sula-panel.skin-carry', 'open'));
    expect(start(wet, 'sula-panel.carry') < '2026-11-05T00:00').toBe(true);
  });

  it('5: has the tabbing of Alca ready for the surveyor on Wednesday, and dresses it after', () => {
    const survey = task(week, 'alca-bulkhead.survey');
    expect(survey.slot?.from.local).toBe('2026-11-04T10:00');
    const tab = task(week, 'alca-bulkhead.tab');
    const handle = tab.film.find(({ milestone }) => milestone === 'handle')?.when?.local ?? '';
    expect(handle > tab.finish.local && handle <= survey.start.local).toBe(true);
    for (const boat of ['alca-bulkhead', 'sula-panel'])
      expect(start(week, `${boat}.dress`) >= start(week, `${boat}.survey`)).toBe(true);
  });

  it('5, did the surveyor not come on Wednesday: Alca would miss the crane', () => {
    const missed = planned({ wednesday: false });
    expect(lifted(missed)[0]).not.toBe('11-06');
    expect(late(missed)[0]).toBeGreaterThan(0);
  });

  it('6 and 7: lifts Alca on Friday and in time, and Sula a week later', () => {
    expect(lifted(week)).toEqual(['11-06', '11-13']);
    expect(late(week)).toEqual([0, 7 * DAY]);
  });

  it('7: Sula first would have been possible, and would break two promises instead of one', () => {
    const pushed = planned({ lorry: false });
    expect(lifted(pushed)).toEqual(['11-10', '11-10']);
    // Only the handing over differs: the same plan, as the week with the lorry values it.
    const values = ranks(week.problem, pushed.plan.placements, pushed.plan.finishes);
    expect(check(week.problem, { ...pushed.plan, values })).toEqual([]);
    expect([week.plan.values[0], values[0]]).toEqual([3 * 7 * DAY, (3 + 1) * 7 * DAY]);
    expect(values[1]).toBeLessThan(week.plan.values[1]);
  });

  it('8: would have lifted both on Friday, had the core come on Monday morning', () => {
    const early = planned({ core: '2026-11-02T08:00:00Z' });
    expect(lifted(early)).toEqual(['11-06', '11-06']);
    expect(late(early)).toEqual([0, 0]);
    expect(start(early, 'sula-panel.cut') < '2026-11-03T00:00').toBe(true);
  });

  it('works in nobody’s night', () => {
    for (const { segments, id } of week.sheet.tasks)
      for (const { start: from, finish } of segments) {
        expect(from.local.slice(11) >= '08:00', id).toBe(true);
        expect(finish.local.slice(11) <= '16:30', id).toBe(true);
      }
  });
});
