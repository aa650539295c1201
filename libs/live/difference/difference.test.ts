import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { handMadeSheet, type HandMadeTask } from '../testing/hand-made-sheet.ts';
import { differenceOf } from './difference.ts';

const now = '2026-11-02T07:00:00Z';
const day = (date: number, time: string): string =>
  `2026-11-${String(date).padStart(2, '0')}T${time}:00Z`;
const task = (
  id: string,
  date: number,
  from: string,
  to: string,
  rest: Partial<HandMadeTask> = {},
): HandMadeTask => ({ id, start: day(date, from), finish: day(date, to), ...rest });

describe('two plans compared', () => {
  it('differ by the days that each boat gains or loses, and by its promise', () => {
    const before = handMadeSheet(
      [],
      [
        { boat: 'Petrel', finish: day(10, '12:00'), promised: day(11, '16:00') },
        { boat: 'Curlew', finish: day(12, '09:00') },
        { boat: 'Heron', finish: day(9, '09:00'), promised: day(8, '09:00'), lateMinutes: 1440 },
        { boat: 'Plover', finish: day(5, '09:00') },
      ],
    );
    const after = handMadeSheet(
      [],
      [
        {
          boat: 'Petrel',
          finish: day(12, '08:00'),
          promised: day(11, '16:00'),
          lateMinutes: 960,
        },
        { boat: 'Curlew', finish: day(12, '07:30') },
        { boat: 'Heron', finish: day(7, '09:00'), promised: day(8, '09:00') },
        { boat: 'Plover', finish: day(5, '09:00') },
      ],
    );
    const { boats, words } = differenceOf(before, after, { now });
    expect(boats.map(({ boat, minutes, days }) => [boat, minutes, days])).toEqual([
      ['Petrel', 2640, 2],
      ['Curlew', -90, 0],
      ['Heron', -2880, -2],
      ['Plover', 0, 0],
    ]);
    expect(words.slice(0, 4)).toEqual([
      'Petrel, refit: 2 days lost, finished Thu 12 Nov 08:00 instead of Tue 10 Nov 12:00. It would be handed over 16 h later than promised.',
      'Curlew, refit: 1 h 30 min gained, finished Thu 12 Nov 07:30 instead of Thu 12 Nov 09:00.',
      'Heron, refit: 2 days gained, finished Sat 7 Nov 09:00 instead of Mon 9 Nov 09:00. Its promise is kept again.',
      'No task moves.',
    ]);
  });

  it('name a boat that only one of them has', () => {
    const one = handMadeSheet([], [{ boat: 'Petrel', finish: day(10, '12:00') }]);
    const none = handMadeSheet([]);
    expect(differenceOf(one, none, { now }).words[0]).toBe('Petrel, refit: not planned any more.');
    expect(differenceOf(none, one, { now }).words[0]).toContain('it was not planned before');
  });

  it('differ by the tasks that move beyond the tolerance, change hands, come and go', () => {
    const before = handMadeSheet([
      task('sand', 2, '08:00', '10:00', { crew: ['Bram'] }),
      task('tab', 2, '10:00', '12:00', { crew: ['Bram', 'Cato'] }),
      task('fit', 3, '08:00', '09:00', { crew: ['Cato'] }),
      task('coat', 3, '09:00', '10:00', { crew: ['Cato'] }),
      task('trim', 9, '09:00', '10:00', { crew: ['Bram'] }),
    ]);
    const after = handMadeSheet([
      task('sand', 2, '08:15', '10:15', { crew: ['Bram'] }),
      task('tab', 2, '13:00', '15:00', { crew: ['Cato', 'Bram'] }),
      task('fit', 3, '08:00', '09:00', { crew: ['Bram'] }),
      task('wipe', 3, '07:00', '07:30', { crew: ['Cato'] }),
      task('trim', 9, '10:00', '11:00', { crew: ['Bram'] }),
    ]);
    const { tasks, people, moved, words } = differenceOf(before, after, { now });
    expect(tasks.map(({ taskId, kind, minutes }) => [taskId, kind, minutes])).toEqual([
      ['tab', 'moved', 180],
      ['wipe', 'new', null],
      ['fit', 'people', 0],
      ['coat', 'gone', null],
      ['trim', 'moved', 60],
    ]);
    expect(moved).toBe(5);
    expect(people).toEqual([
      { personId: 'cato', name: 'Cato', moves: ['tab'], takes: ['wipe'], leaves: ['fit', 'coat'] },
      { personId: 'bram', name: 'Bram', moves: ['tab', 'trim'], takes: ['fit'], leaves: [] },
    ]);
    expect(words).toEqual([
      'No boat is finished at another time.',
      '5 tasks move, 4 of them in the next two days.',
      '"tab" (Petrel, hatch): Mon 2 Nov 13:00 instead of Mon 2 Nov 10:00, Cato and Bram instead of Bram and Cato.',
      '"wipe" (Petrel, hatch): new, Tue 3 Nov 07:00, Cato.',
      '"fit" (Petrel, hatch): Tue 3 Nov 08:00 as before, Bram instead of Cato.',
      '"coat" (Petrel, hatch): not done any more; it was planned for Tue 3 Nov 09:00.',
      'Cato: 1 task at another time, 1 more, 2 fewer.',
      'Bram: 2 tasks at another time, 1 more.',
    ]);
  });

  it('leave aside what has begun: nobody is asked to begin it at another time', () => {
    const before = handMadeSheet([
      task('sand', 2, '08:00', '10:00'),
      task('tab', 2, '10:00', '12:00', { state: 'done' }),
      task('fit', 2, '12:00', '13:00'),
    ]);
    const after = handMadeSheet([
      task('sand', 2, '09:30', '11:00', { state: 'working' }),
      task('fit', 2, '14:00', '15:00', { state: 'paused' }),
    ]);
    expect(differenceOf(before, after, { now }).tasks.map(({ taskId }) => taskId)).toEqual(['fit']);
  });
});

describe('windows of two plans', () => {
  const laid = (windows: HandMadeTask['windows']): HandMadeTask =>
    task('lay', 2, '08:00', '10:00', { state: 'done', ...(windows ? { windows } : {}) });
  const coat = task('coat', 2, '12:00', '13:00');

  it('are lost where what waits comes after them by another link, and regained the other way', () => {
    const inTime = handMadeSheet([laid([{ to: 'coat', closes: day(2, '14:20') }]), coat]);
    const late = handMadeSheet([laid([{ to: 'coat', closes: null }]), coat]);
    const { windows, words } = differenceOf(inTime, late, { now });
    expect(windows.lost).toMatchObject([{ linkId: 'lay..coat', fromTask: 'lay', toTask: 'coat' }]);
    expect(windows.regained).toEqual([]);
    expect(words).toContain(
      'Petrel, hatch: the bond window after "lay" for "coat", which shuts Mon 2 Nov 14:20, is lost.',
    );
    expect(differenceOf(late, inTime, { now }).windows).toMatchObject({
      lost: [],
      regained: [{ linkId: 'lay..coat' }],
    });
  });

  it('are not lost where the work was done in them', () => {
    const before = handMadeSheet([laid([{ to: 'coat', closes: day(2, '14:20') }]), coat]);
    const after = handMadeSheet([laid([]), { ...coat, state: 'working' }]);
    expect(differenceOf(before, after, { now }).windows.lost).toEqual([]);
  });

  it('are lost with a branch that does without the task, not with a part that was dropped', () => {
    const choice = (branch: string) => [
      { id: 'way', name: 'Way', partId: 'Petrel hatch', branch, branchName: branch },
    ];
    const windows = [{ to: 'coat', closes: day(2, '14:20') }];
    const before = handMadeSheet([laid(windows), coat], [], choice('wet'));
    const other = handMadeSheet([laid([]), task('sand', 3, '08:00', '09:00')], [], choice('dry'));
    expect(differenceOf(before, other, { now }).windows.lost).toHaveLength(1);
    const dropped = handMadeSheet([laid([])], [], choice('wet'));
    expect(differenceOf(before, dropped, { now }).windows.lost).toEqual([]);
  });
});

describe('any two plans', () => {
  const people = ['Bram', 'Cato', 'Dirk'];
  const anyTask = (id: string): fc.Arbitrary<HandMadeTask | null> =>
    fc.option(
      fc
        .record({
          hour: fc.integer({ min: 0, max: 500 }),
          crew: fc.subarray(people),
          boat: fc.constantFrom('Petrel', 'Curlew'),
        })
        .map(({ hour, crew, boat }): HandMadeTask => {
          const start = Date.parse('2026-11-02T00:00:00Z') + hour * 3_600_000;
          const at = (ms: number): string => new Date(ms).toISOString();
          return { id, crew, boat, start: at(start), finish: at(start + 3_600_000) };
        }),
    );
  const anySheet = fc
    .tuple(...['a', 'b', 'c', 'd', 'e'].map(anyTask))
    .map((tasks) => handMadeSheet(tasks.filter((one) => one !== null)));

  it('that are the same differ in nothing', () => {
    fc.assert(
      fc.property(anySheet, (sheet) => {
        expect(differenceOf(sheet, sheet, { now })).toMatchObject({
          tasks: [],
          people: [],
          moved: 0,
          words: ['No boat is finished at another time.', 'No task moves.'],
        });
      }),
    );
  });

  it('differ as much the one way as the other', () => {
    const turned = { moved: 'moved', people: 'people', new: 'gone', gone: 'new' } as const;
    fc.assert(
      fc.property(anySheet, anySheet, (one, other) => {
        const there = differenceOf(one, other, { now });
        const back = differenceOf(other, one, { now });
        const key = (list: typeof there.tasks, turn: boolean) =>
          list
            .map((task) => ({
              id: task.taskId,
              kind: turn ? turned[task.kind] : task.kind,
              // Without a minus before zero.
              minutes: task.minutes === null ? null : (turn ? 0 - task.minutes : task.minutes) + 0,
            }))
            .sort((a, b) => (a.id < b.id ? -1 : 1));
        expect(key(back.tasks, true)).toEqual(key(there.tasks, false));
        const counts = (difference: typeof there) =>
          new Map(difference.people.map((p) => [p.personId, [p.takes.length, p.leaves.length]]));
        for (const [person, [takes, leaves]] of counts(there)) {
          expect(counts(back).get(person)).toEqual([leaves, takes]);
        }
      }),
    );
  });
});
