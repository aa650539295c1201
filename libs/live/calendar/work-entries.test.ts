import { describe, expect, it } from 'vitest';
import type { SheetTask } from '#planning/decode/sheet.ts';
import type { Task } from '#planning/workload/workload.ts';
import type { KeyedEntry } from './entry.ts';
import { at, groundWith, planned, taskOf, when } from './testing/ground.ts';
import { builderEntries, spaceEntries } from './work-entries.ts';

const id = (n: number): string => `00000000-0000-4000-8000-00000000000${String(n)}`;

const claim = (crew: string[], status: 'open' | 'working' | 'paused' = 'working') => ({
  id: id(1),
  status,
  holder: crew[0],
  crew,
  claimedAt: at('07:50'),
  lapsesAt: status === 'open' ? at('09:00') : null,
  startedAt: status === 'open' ? null : at('08:00'),
  override: null,
});

const span = (n: number, start: string, end: string | null, crew: string[]) => ({
  id: id(n),
  claimId: id(1),
  start: at(start),
  end: end === null ? null : at(end),
  crew,
});

/** Sanding in two pieces, then a coat with a window after it. */
const plan = (tasks: ReadonlyMap<string, Task>): SheetTask[] => [
  planned(
    taskOf(tasks, 'lid.sand'),
    ['ada'],
    [
      ['08:00', '10:00'],
      ['13:00', '14:00'],
    ],
  ),
  planned(
    taskOf(tasks, 'lid.one'),
    ['ada', 'ben'],
    [['14:00', '15:00']],
    [
      {
        ...{ linkId: 'lid.bond', toTask: 'lid.two', toName: 'Coat two', kind: 'bond' },
        opens: when('17:00'),
        closes: when('20:00'),
      },
    ],
  ),
  planned(taskOf(tasks, 'lid.two'), ['ben'], [['18:00', '18:45']]),
];

const spansOf = (entries: readonly KeyedEntry[]) =>
  entries.map(({ key, entry: { time } }) =>
    time.kind === 'span' ? [key, time.start.slice(11, 16), time.end.slice(11, 16)] : [key],
  );

describe('a builder’s calendar', () => {
  it('has what the plan gives them, piece by piece, in words', () => {
    const ground = groundWith({ plan });
    expect(spansOf(builderEntries(ground, 'ada'))).toEqual([
      ['task:lid.sand:0', '08:00', '10:00'],
      ['task:lid.sand:1', '13:00', '14:00'],
      ['task:lid.one:0', '14:00', '15:00'],
    ]);
    const [, , coat] = builderEntries(ground, 'ada');
    expect(coat.entry).toMatchObject({ summary: 'Coat one, Lid (Gull)', location: 'Shop' });
    expect(coat.entry.description).toContain('Crew: Ada, Ben.');
    expect(coat.entry.description).toContain('Material: Resin.');
    expect(coat.entry.description).toContain('test the film before you follow a window');
    expect(builderEntries(groundWith({}), 'ada')).toEqual([]);
  });

  it('rings before a window opens and before it is too late, as planned while the film is not laid', () => {
    const [first] = builderEntries(groundWith({ plan }), 'ben').filter(({ key }) =>
      key.includes('two'),
    );
    expect(first.entry.alarms).toEqual([
      { at: at('16:45'), words: 'Coat two, Lid (Gull): Window opens Tue 3 Nov 17:00.' },
      // Over by 20:00, and planned to take 45 minutes.
      {
        at: at('18:35'),
        words: expect.stringContaining(
          'Start by Tue 3 Nov 19:15: the window of Coat one (Lid) shuts Tue 3 Nov 20:00',
        ) as string,
      },
    ]);
  });

  it('goes by the real film once it is laid', () => {
    const window = {
      ...{ linkId: 'lid.bond', from: 'lid.one', to: 'lid.two' },
      ...{ opensAt: at('17:30'), closesAt: at('20:40'), startBy: at('19:50') },
      milestones: { opens: 'bond-opens', closes: 'bond-closes' } as const,
    };
    const [two] = builderEntries(groundWith({ plan, windows: [window] }), 'ben').slice(-1);
    expect(two.entry.alarms.map((alarm) => alarm.at)).toEqual([at('17:15'), at('19:10')]);
  });

  it('is whose the work is now: who holds it, else whom the foreman set, else by the plan', () => {
    const held = groundWith({
      plan,
      lives: {
        'lid.two': { claim: claim(['ada'], 'open') },
        'lid.sand': { crew: ['ben'], setCrew: ['ben'] },
      },
    });
    expect(spansOf(builderEntries(held, 'ada'))).toEqual([
      ['task:lid.one:0', '14:00', '15:00'],
      ['task:lid.two:0', '18:00', '18:45'],
    ]);
    expect(spansOf(builderEntries(held, 'ben')).map(([key]) => key)).toEqual([
      'task:lid.sand:0',
      'task:lid.sand:1',
      'task:lid.one:0',
    ]);
  });

  it('tells what was, and of work under way when it is expected to end', () => {
    const running = groundWith({
      plan,
      lives: {
        'lid.sand': {
          ...{ state: 'working', startedAt: at('08:20'), crew: ['ada'], claim: claim(['ada']) },
          spans: [span(2, '08:20', null, ['ada'])],
        },
      },
    });
    // Two hours from when it really began, and the rest as planned.
    expect(spansOf(builderEntries(running, 'ada')).slice(0, 2)).toEqual([
      ['task:lid.sand:0', '08:20', '10:20'],
      ['task:lid.sand:1', '13:00', '14:00'],
    ]);
    const paused = groundWith({
      plan,
      lives: {
        'lid.sand': {
          ...{ state: 'paused', startedAt: at('08:20'), leftMinutes: 60, crew: ['ada'] },
          ...{ claim: claim(['ada'], 'paused'), spans: [span(2, '08:20', '10:05', ['ada'])] },
        },
      },
    });
    expect(spansOf(builderEntries(paused, 'ada')).slice(0, 2)).toEqual([
      ['task:lid.sand:0', '08:20', '10:05'],
      ['task:lid.sand:1', '13:00', '14:00'],
    ]);
    const done = groundWith({
      plan,
      lives: {
        'lid.sand': {
          ...{
            state: 'done',
            startedAt: at('08:20'),
            finishedAt: at('11:40'),
            crew: ['ada', 'ben'],
          },
          spans: [span(2, '08:20', '10:05', ['ada']), span(3, '11:00', '11:40', ['ben'])],
        },
      },
    });
    expect(spansOf(builderEntries(done, 'ada'))[0]).toEqual(['task:lid.sand:0', '08:20', '10:05']);
    expect(spansOf(builderEntries(done, 'ben'))[0]).toEqual(['task:lid.sand:1', '11:00', '11:40']);
    expect(builderEntries(done, 'ada')[0].entry.description).toContain('\nDone.\n');
  });

  it('drops what is dropped', () => {
    const ground = groundWith({ plan, lives: { 'lid.two': { state: 'dropped' } } });
    expect(spansOf(builderEntries(ground, 'ben')).map(([key]) => key)).toEqual(['task:lid.one:0']);
  });
});

describe('a space’s calendar', () => {
  it('has all work in it, rings for nobody, and says until when a film must not get dust', () => {
    const ground = groundWith({
      plan: (tasks) =>
        plan(tasks).map((task) =>
          task.id === 'lid.one'
            ? {
                ...task,
                film: [
                  {
                    ...{ milestone: 'dust-safe' as const, words: 'dust-safe', when: when('19:00') },
                    ...{ earliest: null, latest: null, touchTest: null },
                  },
                ],
              }
            : task,
        ),
    });
    const entries = spaceEntries(ground, 'shop');
    expect(spansOf(entries)).toEqual([
      ['task:lid.sand:0', '08:00', '10:00'],
      ['task:lid.sand:1', '13:00', '14:00'],
      ['task:lid.one:0', '14:00', '15:00'],
      ['film:lid.one', '15:00', '19:00'],
      ['task:lid.two:0', '18:00', '18:45'],
    ]);
    expect(entries.flatMap(({ entry }) => entry.alarms)).toEqual([]);
    expect(entries[3].entry.summary).toBe('No dust: Coat one, Lid (Gull) cures');
    expect(spaceEntries(ground, 'loft')).toEqual([]);
  });
});
