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
const none = 'none of those who can do it are at work when it could begin';
const tooShort = 'of those at work nobody is there for the 1 h that it takes';
const busyElsewhere = 'other work keeps those who can do it from it';

describe('wiping that is ready', () => {
  it('is warned of where the day ends before the coat could be on', () => {
    const yard = wiped(180);
    // Begun at 14:10, the coat can be from 15:00 to 16:00.
    expect(said(yard, { time: '14:10' })).toEqual([]);
    expect(said(yard, { time: '14:11' })).toEqual([deadEnd('16:11', tooShort)]);
    // Wiped at 16:00, whoever could coat has gone.
    expect(said(yard, { time: '15:10' })).toEqual([deadEnd('17:10', none)]);
  });

  it('is not where the window lasts until the next day, or somebody may stay longer', () => {
    expect(said(wiped(1440), { time: '15:00' })).toEqual([]);
    const late = (draft: Yard): void => {
      ada(draft).overtime = [{ weekday: 1, from: '16:00', to: '17:00' }];
    };
    expect(said(wiped(180, late), { time: '15:00' })).toEqual([]);
    expect(said(wiped(180, late), { time: '15:11' })).toEqual([deadEnd('17:11', tooShort)]);
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
      deadEnd('11:30', 'too few here can do it'),
    ]);
    const learning = (draft: Yard): void => {
      const [coating, sanding] = ada(draft).abilities;
      ada(draft).abilities = [{ ...coating, level: 1 }, sanding];
    };
    expect(said(wiped(180, learning), { time: '09:00' })).toEqual([
      deadEnd('11:00', 'only learners here can do it'),
    ]);
    const unskilled = (draft: Yard): void => {
      ada(draft).abilities = ada(draft).abilities.filter(({ skill }) => skill === 'sanding');
    };
    expect(said(wiped(180, unskilled), { time: '09:00' })).toEqual([
      deadEnd('11:00', 'nobody here can do it'),
    ]);
    const taught = (draft: Yard): void => {
      learning(draft);
      const senior = { skill: 'coating', level: 3, speed: 100 };
      draft.people.push({ ...ada(draft), id: 'bo', name: 'Bo', abilities: [senior] });
    };
    expect(said(wiped(180, taught), { time: '09:00' })).toEqual([]);
    const untaught = (draft: Yard): void => {
      taught(draft);
      draft.people[1].exceptions = [{ date: '2026-11-02', shifts: [], reason: 'ill' }];
    };
    expect(said(wiped(180, untaught), { time: '09:00' })).toEqual([
      deadEnd('11:00', 'only learners are at work when it could begin'),
    ]);
    const briefly = (draft: Yard): void => {
      taught(draft);
      draft.people[1].shifts = [{ weekday: 1, from: '08:00', to: '10:30', breaks: [] }];
    };
    expect(said(wiped(180, briefly), { time: '09:00' })).toEqual([
      deadEnd('11:00', 'of those at work only learners are there for the 1 h that it takes'),
    ]);
  });

  it('is where the foreman has set the coat for somebody who does not come, though others could', () => {
    const bo = (rest: Partial<Yard['people'][number]>): Yard =>
      wiped(180, (draft) => {
        draft.people.push({ ...ada(draft), id: 'bo', name: 'Bo', ...rest });
      });
    const tasks = { 'lid.one': { crew: ['bo'] } };
    const setForBo = (why: string): string[] => [
      deadEnd('11:00', `the foreman has set it for Bo, ${why}`),
    ];
    const ill = bo({ exceptions: [{ date: '2026-11-02', shifts: [], reason: 'ill' }] });
    expect(said(ill, { time: '09:00' })).toEqual([]);
    const away = 'who is not at work when it could begin';
    expect(said(ill, { time: '09:00', tasks })).toEqual(setForBo(away));
    const both = { 'lid.one': { crew: ['ada', 'bo'] } };
    expect(said(ill, { time: '09:00', tasks: both })).toEqual(setForBo(away));
    const early = [{ weekday: 1, from: '08:00', to: '10:30', breaks: [] }];
    expect(said(bo({ shifts: early }), { time: '09:00', tasks })).toEqual(
      setForBo('who is not there for the 1 h that it takes'),
    );
    expect(said(bo({ abilities: [] }), { time: '09:00', tasks })).toEqual(
      setForBo('who cannot do it'),
    );
    const learns = [{ skill: 'coating', level: 1, speed: 100 }];
    const noon = [{ weekday: 1, from: '08:00', to: '11:30', breaks: [] }];
    const apart = wiped(180, (draft) => {
      draft.people.push({ ...ada(draft), id: 'bo', name: 'Bo', abilities: learns, shifts: noon });
      ada(draft).shifts = [{ weekday: 1, from: '10:31', to: '16:00', breaks: [] }];
    });
    expect(said(apart, { time: '09:00', tasks })).toEqual([
      deadEnd(
        '11:00',
        'the foreman has set it for Bo, and not all whom it takes are there at once',
      ),
    ]);
    // Nor could anybody else: then it is not for whom it is set.
    expect(said(ill, { time: '15:10', tasks })).toEqual([deadEnd('17:10', none)]);
  });

  it('is where those are set for whom the shop is shut', () => {
    const yard = wiped(180, (draft) => {
      const late = [{ weekday: 1, from: '10:30', to: '16:00', breaks: [] }];
      draft.people.push({ ...ada(draft), id: 'bo', name: 'Bo', shifts: late });
      draft.spaces[0].hours = [{ weekday: 1, from: '08:00', to: '10:30' }];
    });
    const tasks = { 'lid.one': { crew: ['bo'] } };
    expect(said(yard, { time: '09:00' })).toEqual([]);
    expect(said(yard, { time: '09:00', tasks })).toEqual([
      deadEnd('11:00', 'the foreman has set it for Bo, and Shop is shut when they could begin'),
    ]);
  });

  it('is where the space is shut by then', () => {
    const shut = (draft: Yard): void => {
      draft.spaces[0].hours = [{ weekday: 1, from: '08:00', to: '09:30' }];
    };
    expect(said(wiped(180, shut), { time: '08:30' })).toEqual([]);
    expect(said(wiped(180, shut), { time: '09:00' })).toEqual([
      deadEnd('11:00', 'Shop is shut when those who can do it could begin'),
    ]);
  });
});

const tooLate = (rest: string): string => `Done now, it leads nowhere: its surface ${rest}`;

describe('wiping for which there is no time', () => {
  it('is warned of where the surface is stale before the coat could begin, or be done', () => {
    expect(said(wiped(30), { time: '09:00' })).toEqual([
      tooLate('is stale at Mon 2 Nov 09:30, before “Coat one” could begin.'),
    ]);
    // Wiped at 09:50, and the coat takes an hour.
    expect(said(wiped(109), { time: '09:00' })).toEqual([
      tooLate('is stale at Mon 2 Nov 10:49, before “Coat one” could be done.'),
    ]);
    expect(said(wiped(110), { time: '09:00' })).toEqual([]);
  });

  it('is not where somebody is quick enough', () => {
    const quick = (draft: Yard): void => {
      for (const ability of ada(draft).abilities) ability.speed = 200;
    };
    expect(said(wiped(55, quick), { time: '09:00' })).toEqual([]);
    expect(said(wiped(54, quick), { time: '09:00' })).toEqual([
      tooLate('is stale at Mon 2 Nov 09:54, before “Coat one” could be done.'),
    ]);
  });

  it('is where it was put aside for too long: the window runs from when it was begun first', () => {
    const aside = {
      state: 'paused' as const,
      ...{ startedAt: '2026-11-02T08:00:00Z', leftMinutes: 10, crew: ['ada'] },
    };
    const tasks = { 'lid.sand': aside };
    expect(said(wiped(180), { time: '09:50', tasks })).toEqual([]);
    expect(said(wiped(180), { time: '09:51', tasks })).toEqual([
      tooLate('is stale at Mon 2 Nov 11:00, before “Coat one” could be done.'),
    ]);
    expect(said(wiped(180), { time: '14:00', tasks })).toEqual([
      tooLate('was stale at Mon 2 Nov 11:00, before “Coat one” could begin.'),
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
      deadEnd('11:59', 'too few of those who can do it are at work when it could begin'),
    ]);
    const halfDay = (draft: Yard): void => {
      pair(draft);
      ada(draft).shifts = [{ weekday: 1, from: '08:00', to: '12:29', breaks: [] }];
    };
    expect(said(wiped(180, halfDay), { time: '09:30' })).toEqual([
      deadEnd('12:00', 'of those at work too few are there for the 30 min that it takes'),
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
      deadEnd('15:29', 'Shop is shut when those who can do it could begin'),
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
  const elsewhere = deadEnd('11:00', busyElsewhere);

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

  it('is of whom the foreman has set it for, where others could', () => {
    const { people } = yard;
    const two = { ...yard, people: [...people, { ...people[0], id: 'bo', name: 'Bo' }] };
    const tasks = { 'lid.one': { crew: ['ada'] } };
    expect(said(two, { time: '09:00', sheet: sheetOf(busy) })).toEqual([]);
    expect(said(two, { time: '09:00', sheet: sheetOf(busy), tasks })).toEqual([
      deadEnd('11:00', 'the foreman has set it for Ada, whom other work keeps from it'),
    ]);
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
      deadEnd('10:10', busyElsewhere),
    ]);
  });
});
