import { describe, expect, it } from 'vitest';
import { check } from '#scheduling/checker/check.ts';
import { solve } from '#scheduling/solve.ts';
import { compile } from '../compile/compile.ts';
import { smallYard } from '../testing/small-yard.ts';
import { makeWorkload } from '../workload/make.ts';
import type { Task, Workload } from '../workload/workload.ts';
import type { Yard } from '../yard/yard.ts';
import { makeSheet } from './make-sheet.ts';
import { printSheet } from './print/print.ts';
import { standing } from './ready/standing.ts';
import type { PlanSheet } from './sheet.ts';
import { weekOf } from './week.ts';

function workloadOf(yard: Yard, begun: Record<string, Partial<Task>> = {}): Workload {
  const made = makeWorkload(yard);
  return { ...made, tasks: made.tasks.map((task) => ({ ...task, ...begun[task.id] })) };
}

function sheetOf(yard: Yard, workload: Workload = workloadOf(yard), now?: string): PlanSheet {
  const compiled = compile({ yard, workload, ...(now === undefined ? {} : { now }) });
  const result = solve(compiled.problem, { seed: 1, iterations: 200 });
  if (result.plan === null) throw new Error('no plan was found');
  expect(check(compiled.problem, result.plan)).toEqual([]);
  return makeSheet({ compiled, result, yard, workload });
}

/*
 * The small yard by hand, at 20 degrees: sand 50 min from Monday 08:00, the dust settles in
 * 30 min, coat one from 09:20 to 10:20, bonds from 12:20 (two hours after 10:20) until 15:20
 * (six hours after 09:20), so coat two from 12:20 to 13:20. No other order is quicker.
 */
describe('makeSheet of the small yard', () => {
  const sheet = sheetOf(smallYard());

  it('has the times worked out by hand', () => {
    expect(sheet.tasks.map(({ id, start, finish }) => [id, start.local, finish.local])).toEqual([
      ['lid.sand', '2026-11-02T08:00', '2026-11-02T08:50'],
      ['lid.one', '2026-11-02T09:20', '2026-11-02T10:20'],
      ['lid.two', '2026-11-02T12:20', '2026-11-02T13:20'],
    ]);
    expect(sheet.choices).toEqual([
      {
        id: 'lid.next',
        name: 'Bond or prepare',
        partId: 'lid',
        branch: 'bond',
        branchName: 'in the window',
      },
    ]);
  });

  it('says for which time the outdoors is not known, where a space follows it', () => {
    const outdoors = (hours: number): PlanSheet =>
      sheetOf(
        smallYard((yard) => {
          yard.outdoor = {
            from: '2026-11-02T00:00:00Z',
            celsius: Array.from({ length: hours }, () => 20),
            humidity: [],
            source: 'invented',
          };
          yard.spaces[0].climate = { kind: 'outdoors', lagHours: 0, warmerBy: 0 };
        }),
      );
    // Twelve readings end at 11:00; the last work ends at 13:20.
    expect(outdoors(12).caution.startsWith(sheet.caution)).toBe(true);
    expect(outdoors(12).caution).toContain(
      'does not cover all of Mon 2 Nov 11:00 to Mon 2 Nov 13:20',
    );
    expect(outdoors(15).caution).toBe(sheet.caution);
  });

  it('has the film’s timeline and the window of what follows', () => {
    const one = sheet.tasks[1];
    expect(one.film.map(({ milestone, when }) => [milestone, when?.local])).toEqual([
      ['bond-opens', '2026-11-02T12:20'],
      ['dust-safe', '2026-11-02T14:20'],
      ['bond-closes', '2026-11-02T15:20'],
      ['tack-free', '2026-11-02T15:20'],
      ['sandable', '2026-11-03T02:20'],
    ]);
    expect(one.windows).toMatchObject([
      {
        linkId: 'lid.bond',
        toTask: 'lid.two',
        kind: 'bond',
        opens: { local: '2026-11-02T12:20' },
        closes: { local: '2026-11-02T15:20' },
      },
    ]);
    // Its step says no quantity, and its sheet no hardener: the clock of the sheet's cup alone.
    expect(one.mix).toMatchObject({
      celsius: 20,
      potLifeMinutes: 30,
      useWithinMinutes: 15,
      cups: [],
      resinGrams: null,
    });
    expect(one.mix?.missing).toHaveLength(1);
    expect(one.mix?.missing[0]).toContain('the line "hardener" of its data sheet');
    // Laid from 09:20 to 10:20, and known exactly: the first of it is an hour ahead of the last.
    expect(one.film[0]).toMatchObject({
      milestone: 'bond-opens',
      earliest: { local: '2026-11-02T11:20' },
      latest: { local: '2026-11-02T12:20' },
    });
    expect(one.film[2]).toMatchObject({
      milestone: 'bond-closes',
      earliest: { local: '2026-11-02T15:20' },
      latest: { local: '2026-11-02T16:20' },
    });
  });

  it('has the boat’s promise, finish and chain in sentences', () => {
    const [boat] = sheet.boats;
    expect(boat).toMatchObject({
      boat: 'Gull',
      promised: { local: '2026-11-06T16:00' },
      finish: { local: '2026-11-02T13:20' },
      lateMinutes: 0,
    });
    expect(boat.chain.at(-1)?.text).toBe(
      'Coat two (Lid) waits for Coat one (Lid) to be ready to bond (Mon 2 Nov 12:20), because Resin in Shop at 20 °C takes 2 h',
    );
    expect(boat.chain.map(({ toTask, reason }) => [toTask, reason])).toContainEqual([
      'lid.one',
      'dust',
    ]);
  });

  it('tells a boat that is not there yet from a plan that begins in mid-morning', () => {
    const yard = smallYard();
    const begins = sheetOf(yard, workloadOf(yard), '2026-11-02T10:00:00Z').boats[0].chain;
    expect(begins.map(({ text }) => text)).toContain(
      'Sand (Lid) cannot begin before Mon 2 Nov 10:00, the moment from which this plan is made',
    );
    const away = smallYard((draft) => (draft.boats[0].refits[0].release = '2026-11-02T10:00:00Z'));
    expect(sheetOf(away).boats[0].chain.map(({ text }) => text)).toContain(
      'Sand (Lid) cannot begin before Mon 2 Nov 10:00, when the boat is there',
    );
  });

  it('survives a trip through JSON', () => {
    expect(JSON.parse(JSON.stringify(sheet))).toEqual(sheet);
  });

  it('prints boats, chain, week, cure windows and the caution', () => {
    const text = printSheet(sheet);
    expect(text).toContain('promised Fri 6 Nov 16:00, planned Mon 2 Nov 13:20, in time; gap ');
    expect(text).toContain('    09:20-10:20  Coat one, Lid of Gull, Shop');
    expect(text).toContain(
      // From two hours after the last of it to six after the first; opens at the earliest two hours after the first.
      '    bond window Mon 2 Nov 12:20 to 15:20 (11:20 to 16:20), dust-safe Mon 2 Nov 14:20 (13:20)',
    );
    expect(text).toContain(
      '    next: Coat two from Mon 2 Nov 12:20, over by Mon 2 Nov 15:20 (planned Mon 2 Nov 12:20)',
    );
    expect(text).toContain('cup lasts 30 min at 20 °C');
    expect(text).toMatch(
      / \(planned Mon 2 Nov 12:20\); by hand: A thumb leaves its print .*; too late once: A thumb leaves no print any more$/m,
    );
    // The day is said where it is another one.
    expect(text).toMatch(/sandable Tue 3 Nov 02:20 \(01:20\)/);
    expect(text.trimEnd().endsWith(sheet.caution)).toBe(true);
  });
});

describe('weekOf', () => {
  const sheet = sheetOf(smallYard((yard) => (yard.boats[0].refits[0].parts[0].areaM2 = 12)));

  it.each([
    ['builder', 'ada', 'Ada'],
    ['space', 'shop', 'Shop'],
    ['boat', 'gull', 'Gull'],
  ] as const)('by %s', (by, id, name) => {
    const week = weekOf(sheet, { weekStart: '2026-11-02', by });
    expect(week.weekEnd).toBe('2026-11-08');
    expect(week.groups.map((group) => [group.id, group.name])).toEqual([[id, name]]);
    const segments = sheet.tasks.flatMap((task) => task.segments);
    expect(week.groups[0].rows).toHaveLength(segments.length);
  });

  it('has nothing in a week without work', () => {
    expect(weekOf(sheet, { weekStart: '2026-11-09', by: 'boat' }).groups).toEqual([]);
  });

  it('marks work that goes on later', () => {
    // 250 minutes of sanding from 15:00 on do not fit into the day.
    const late = sheetOf(
      smallYard((yard) => {
        yard.boats[0].refits[0].parts[0].areaM2 = 12;
        yard.boats[0].refits[0].release = '2026-11-02T15:00:00Z';
      }),
    );
    const rows = weekOf(late, { weekStart: '2026-11-02', by: 'space' }).groups[0].rows.filter(
      ({ taskId }) => taskId === 'lid.sand',
    );
    expect(
      rows.map(({ date, from, to, continued, continues }) => [
        date,
        from,
        to,
        continued,
        continues,
      ]),
    ).toEqual([
      ['2026-11-02', '15:00', '16:00', false, true],
      ['2026-11-03', '08:00', '11:10', true, false],
    ]);
  });
});

describe('what is ready', () => {
  const yard = smallYard();
  const sanded = {
    state: 'done',
    startedAt: '2026-11-02T08:00:00Z',
    finishedAt: '2026-11-02T08:50:00Z',
    crew: ['ada'],
  } as const;
  const coated = {
    state: 'done',
    startedAt: '2026-11-02T09:20:00Z',
    finishedAt: '2026-11-02T10:20:00Z',
    crew: ['ada'],
  } as const;
  const at = (now: string, begun: Record<string, Partial<Task>> = {}) =>
    standing({
      yard,
      workload: workloadOf(yard, begun),
      sheet: null,
      now: `2026-11-02T${now}:00Z`,
    }).all();

  it('offers what nothing holds back, and says what the rest waits for', () => {
    const { ready, waiting } = at('08:00');
    expect(ready.map(({ taskId, closes }) => [taskId, closes])).toEqual([['lid.sand', null]]);
    expect(waiting.map(({ taskId, why }) => [taskId, why])).toEqual([
      ['lid.one', 'Sand (Lid) is not done'],
      ['lid.two', 'Coat one (Lid) is not done'],
    ]);
  });

  it('keeps wet work out of the dust until it has settled', () => {
    const { ready, waiting } = at('09:00', { 'lid.sand': sanded });
    expect(ready).toEqual([]);
    expect(waiting[0]).toMatchObject({
      taskId: 'lid.one',
      why: 'the dust of Sand (Lid) has not settled',
      opens: { local: '2026-11-02T09:20' },
    });
    expect(at('09:20', { 'lid.sand': sanded }).ready.map(({ taskId }) => taskId)).toEqual([
      'lid.one',
    ]);
  });

  it('opens a window when the film really laid has got there, and says when it shuts', () => {
    const begun = { 'lid.sand': sanded, 'lid.one': coated };
    expect(at('12:19', begun).waiting[0]).toMatchObject({
      why: 'Coat one (Lid) is not ready to bond yet, but on Mon 2 Nov 12:20',
      opens: { local: '2026-11-02T12:20' },
    });
    expect(at('12:20', begun).ready[0]).toMatchObject({
      taskId: 'lid.two',
      closes: { local: '2026-11-02T15:20' },
      startBy: { local: '2026-11-02T14:20' },
      because: 'the window of Coat one (Lid) shuts',
      mix: { potLifeMinutes: 30 },
    });
    expect(at('14:20', begun).ready.map(({ taskId }) => taskId)).toEqual(['lid.two']);
    expect(at('14:21', begun).waiting[0].why).toBe(
      'too late: the window of Coat one (Lid) shuts Mon 2 Nov 15:20; plan again',
    );
  });

  it('follows the branch that the plan takes', () => {
    const sheet = {
      ...sheetOf(yard),
      choices: [
        { id: 'lid.next', name: '', partId: 'lid', branch: 'prepare', branchName: 'abraded' },
      ],
    };
    const workload = workloadOf(yard, { 'lid.sand': sanded, 'lid.one': coated });
    const { waiting } = standing({ yard, workload, sheet, now: '2026-11-02T12:30:00Z' }).all();
    expect(waiting.map(({ taskId, why }) => [taskId, why])).toEqual([
      // The sheet has no time for the first: its plan went the other way.
      ['lid.two', 'Abrade (Lid) is not done'],
      ['lid.key', 'Coat one (Lid) is not sandable yet, but on Tue 3 Nov 02:20'],
    ]);
  });

  it('waits for the boat', () => {
    const away = smallYard((draft) => (draft.boats[0].refits[0].release = '2026-11-03T08:00:00Z'));
    const { ready, waiting } = standing({
      yard: away,
      workload: workloadOf(away),
      sheet: null,
      now: '2026-11-02T09:00:00Z',
    }).all();
    expect(ready).toEqual([]);
    expect(waiting[0].why).toBe('the boat is there from Tue 3 Nov 08:00');
  });
});

describe('a plan made when work has begun', () => {
  it('keeps what happened at its real time, and follows the film from there', () => {
    const yard = smallYard();
    const workload = workloadOf(yard, {
      'lid.sand': {
        state: 'done',
        startedAt: '2026-11-01T08:00:00Z',
        finishedAt: '2026-11-01T09:00:00Z',
        crew: ['ada'],
      },
      'lid.one': {
        state: 'done',
        startedAt: '2026-11-02T06:00:00Z',
        finishedAt: '2026-11-02T07:00:00Z',
        crew: ['ada'],
      },
    });
    const sheet = sheetOf(yard, workload);
    expect(
      sheet.tasks.map(({ id, start, crew }) => [id, start.local, crew.map(({ name }) => name)]),
    ).toEqual([
      ['lid.sand', '2026-11-01T08:00', ['Ada']],
      ['lid.one', '2026-11-02T06:00', ['Ada']],
      ['lid.two', '2026-11-02T09:00', ['Ada']], // two hours after 07:00
    ]);
  });
});
