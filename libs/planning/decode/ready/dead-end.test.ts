import { describe, expect, it } from 'vitest';
import { solve } from '#scheduling/solve.ts';
import { compile } from '../../compile/compile.ts';
import { smallYard } from '../../testing/small-yard.ts';
import { makeWorkload } from '../../workload/make.ts';
import type { Task } from '../../workload/workload.ts';
import type { Yard } from '../../yard/yard.ts';
import { makeSheet } from '../make-sheet.ts';
import type { PlanSheet, SheetTask } from '../sheet.ts';
import { standing } from './standing.ts';

/**
 * Ada wipes the lid in 50 minutes, and then it has to be coated, an hour's work in one go, within so
 * many minutes of when the wiping began; on Mondays she is there from 08:00 to 16:00.
 */
function wiped(minutes: number, change: (draft: Yard) => void = () => undefined): Yard {
  return smallYard((draft) => {
    const [procedure] = draft.procedures;
    const [sand, one] = procedure.steps;
    procedure.steps = [{ ...sand, name: 'Wipe', air: 'clean' }, one];
    const [link] = procedure.links;
    procedure.links = [{ ...link, closes: { kind: 'after', minutes } }];
    procedure.choices = [];
    change(draft);
  });
}

interface At {
  readonly time: string;
  readonly day?: string;
  readonly sheet?: PlanSheet;
  readonly tasks?: Readonly<Record<string, Partial<Task>>>;
}

/** What is said of the wiping where it is ready at a time. */
function said(yard: Yard, { time, day = '02', sheet, tasks = {} }: At): readonly string[] {
  const made = makeWorkload(yard);
  const workload = { ...made, tasks: made.tasks.map((one) => ({ ...one, ...tasks[one.id] })) };
  const now = `2026-11-${day}T${time}:00Z`;
  const found = standing({ yard, workload, sheet: sheet ?? null, now }).task('lid.sand');
  expect(found).toMatchObject({ isReady: true });
  return found?.notes ?? [];
}

const ada = (yard: Yard): Yard['people'][number] => yard.people[0];
const deadEnd = (by: string, who: string): string =>
  `Done now, it leads nowhere: “Coat one” has to begin by Mon 2 Nov ${by}, and ${who}.`;
const none = 'none of those who can do it are at work until then';

describe('wiping that is ready', () => {
  it('is warned of where the day ends before the coat could be on', () => {
    const yard = wiped(180);
    // Begun at 14:10, the coat can be from 15:00 to 16:00.
    expect(said(yard, { time: '14:10' })).toEqual([]);
    expect(said(yard, { time: '14:11' })).toEqual([deadEnd('16:11', none)]);
  });

  it('is not where the window lasts until the next day, or somebody may stay longer', () => {
    expect(said(wiped(1440), { time: '15:00' })).toEqual([]);
    const late = (draft: Yard): void => {
      ada(draft).overtime = [{ weekday: 1, from: '16:00', to: '17:00' }];
    };
    expect(said(wiped(180, late), { time: '15:00' })).toEqual([]);
    expect(said(wiped(180, late), { time: '15:11' })).toEqual([deadEnd('17:11', none)]);
  });

  it('is where whoever could coat is away, has the skill too little, or is alone with it', () => {
    const away = (draft: Yard): void => {
      ada(draft).exceptions = [{ date: '2026-11-02', shifts: [], reason: 'ill' }];
    };
    expect(said(wiped(180, away), { time: '09:00' })).toEqual([deadEnd('11:00', none)]);
    const both = (draft: Yard): void => {
      draft.procedures[0].steps[1].crewMin = 2;
      draft.procedures[0].steps[1].crewMax = 2;
    };
    expect(said(wiped(180, both), { time: '09:00' })).toEqual([
      deadEnd('11:30', 'too few of those who can do it are at work until then'),
    ]);
    const learning = (draft: Yard): void => {
      const [coating, sanding] = ada(draft).abilities;
      ada(draft).abilities = [{ ...coating, level: 1 }, sanding];
    };
    expect(said(wiped(180, learning), { time: '09:00' })).toEqual([deadEnd('11:00', none)]);
    const taught = (draft: Yard): void => {
      learning(draft);
      const senior = { skill: 'coating', level: 3, speed: 100 };
      draft.people.push({ ...ada(draft), id: 'bo', name: 'Bo', abilities: [senior] });
    };
    expect(said(wiped(180, taught), { time: '09:00' })).toEqual([]);
  });

  it('is where the foreman has set the coat for somebody who is not there', () => {
    const two = (draft: Yard): void => {
      const away = [{ date: '2026-11-02', shifts: [], reason: 'ill' }];
      draft.people.push({ ...ada(draft), id: 'bo', name: 'Bo', exceptions: away });
    };
    const yard = wiped(180, two);
    expect(said(yard, { time: '09:00' })).toEqual([]);
    const tasks = { 'lid.one': { crew: ['bo'] } };
    expect(said(yard, { time: '09:00', tasks })).toHaveLength(1);
  });

  it('is where the space is shut by then', () => {
    const shut = (draft: Yard): void => {
      draft.spaces[0].hours = [{ weekday: 1, from: '08:00', to: '09:30' }];
    };
    expect(said(wiped(180, shut), { time: '08:30' })).toEqual([]);
    expect(said(wiped(180, shut), { time: '09:00' })).toEqual([
      deadEnd('11:00', 'Shop is shut when those who can do it are at work'),
    ]);
  });
});

describe('wiping for a coat that takes two', () => {
  const pair = (draft: Yard): void => {
    const [, coat] = draft.procedures[0].steps;
    coat.crewMin = 2;
    coat.crewMax = 2;
    const afternoon = { weekday: 1, from: '12:00', to: '20:00', breaks: [] };
    draft.people.push({ ...ada(draft), id: 'bo', name: 'Bo', shifts: [afternoon] });
  };

  it('waits for both at once', () => {
    // Half an hour for two, who are both there from 12:00 on.
    expect(said(wiped(180, pair), { time: '09:30' })).toEqual([]);
    expect(said(wiped(180, pair), { time: '09:29' })).toEqual([
      deadEnd('11:59', 'too few of those who can do it are at work until then'),
    ]);
    const open = (draft: Yard): void => {
      pair(draft);
      draft.spaces[0].hours = [
        { weekday: 1, from: '08:00', to: '11:00' },
        { weekday: 1, from: '15:30', to: '18:00' },
      ];
    };
    // From 15:30 to 16:00 both are there and the shop is open.
    expect(said(wiped(360, open), { time: '10:30' })).toEqual([]);
    expect(said(wiped(359, open), { time: '10:00' })).toEqual([
      deadEnd('15:29', 'Shop is shut when those who can do it are at work'),
    ]);
  });
});

describe('wiping, with a plan', () => {
  /** A hatch besides, that is to be wiped and coated as well. */
  const yard = wiped(180, (draft) => {
    const { parts } = draft.boats[0].refits[0];
    const [lid] = parts;
    parts.push({ ...lid, id: 'hatch', name: 'Hatch', jobs: [{ ...lid.jobs[0], id: 'hatch' }] });
  });
  const workload = makeWorkload(yard);
  const compiled = compile({ yard, workload });
  const result = solve(compiled.problem, { seed: 1, iterations: 8 });
  const made = makeSheet({ compiled, result, yard, workload });
  /** Of the plan one task, Ada's, at another time of Monday. */
  const planned = (id: string, from: string, to: string): SheetTask[] => {
    const when = (time: string) => ({ at: `2026-11-02T${time}:00Z`, local: `2026-11-02T${time}` });
    const [start, finish] = [when(from), when(to)];
    const segments = [{ start, finish }];
    return made.tasks.flatMap((task) =>
      task.id === id ? [{ ...task, start, finish, segments }] : [],
    );
  };
  const sheetOf = (...tasks: SheetTask[][]): PlanSheet => ({ ...made, tasks: tasks.flat() });
  const busy = planned('hatch.sand', '09:00', '12:00');
  const elsewhere = deadEnd('11:00', 'those who can do it have other work until then');

  it('is warned of where all who could coat are planned for other work meanwhile', () => {
    expect(said(yard, { time: '09:00', sheet: sheetOf(busy) })).toEqual([elsewhere]);
    expect(
      said(yard, { time: '09:00', sheet: sheetOf(planned('hatch.sand', '09:00', '10:30')) }),
    ).toEqual([]);
    // What was planned and is over keeps nobody.
    const done: Partial<Task> = {
      state: 'done',
      ...{ startedAt: '2026-11-02T08:00:00Z', finishedAt: '2026-11-02T08:50:00Z', crew: ['ada'] },
    };
    const tasks = { 'hatch.sand': done, 'hatch.one': { state: 'done' as const } };
    expect(said(yard, { time: '09:00', sheet: sheetOf(busy), tasks })).toEqual([]);
  });

  it('is not where they are planned to come for it, however late they are by now', () => {
    const coming = planned('lid.one', '08:50', '09:50');
    expect(said(yard, { time: '09:00', sheet: sheetOf(coming, busy) })).toEqual([]);
    // Planned for the afternoon it is taken up too soon.
    const later = planned('lid.one', '13:00', '14:00');
    expect(said(yard, { time: '09:00', sheet: sheetOf(later, busy) })).toEqual([elsewhere]);
  });

  it('is where they have something in hand that cannot be put aside', () => {
    const inHand = (finishedAt: string): Readonly<Record<string, Partial<Task>>> => ({
      'hatch.sand': { state: 'done', startedAt: yard.planFrom, finishedAt: yard.planFrom },
      'hatch.one': { state: 'working', startedAt: yard.planFrom, crew: ['ada'], finishedAt },
    });
    expect(said(yard, { time: '08:10', tasks: inHand('2026-11-02T09:00:00Z') })).toEqual([]);
    expect(said(yard, { time: '08:10', tasks: inHand('2026-11-02T12:00:00Z') })).toEqual([
      deadEnd('10:10', 'those who can do it have other work until then'),
    ]);
  });
});
