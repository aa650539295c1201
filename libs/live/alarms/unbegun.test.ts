import { describe, expect, it } from 'vitest';
import { jobOf } from '#planning/testing/small-yard.ts';
import type { Task } from '#planning/workload/workload.ts';
import type { Yard } from '#planning/yard/yard.ts';
import type { HandMadeTask } from '../testing/hand-made-sheet.ts';
import { putOff, ringsAgain, type WantedAlarm } from './facts.ts';
import { alarmsAt, claimOf, keyed, laid, on, sanded, words, type Scene } from './testing/scene.ts';

describe('work of the published plan that nobody begins', () => {
  const plan = (id: string, from: string, to: string, crew = ['Ben']): HandMadeTask => ({
    id,
    start: on(from),
    finish: on(to),
    crew,
  });
  /** A second part, made likewise. */
  const withBox = (yard: Yard): void => {
    const [{ parts }] = yard.boats[0].refits;
    parts.push({ ...parts[0], id: 'box', name: 'Box', jobs: [jobOf('box')] });
  };
  const planned = [plan('lid.sand', '09:00', '09:50'), plan('lid.one', '10:00', '11:00')];
  const unbegun = (scene: Scene): WantedAlarm[] =>
    alarmsAt({ planned, ...scene }).filter(({ key }) => key.startsWith('unbegun'));
  const dues = (scene: Scene): [key: string, dueAt: string][] =>
    unbegun(scene).map(({ key, dueAt }) => [key, dueAt]);

  it('is told half an hour after its start, the first of a chain only', () => {
    const [sand, ...others] = unbegun({ now: '08:30' });
    expect(others).toEqual([]);
    expect(sand).toMatchObject({
      taskId: 'lid.sand',
      dueAt: on('09:30'),
      audience: ['ben', 'ada'],
    });
    expect(words(sand)).toBe(
      'Sand (Lid, Gull) should have begun at 09:00; nobody has begun it. Begin it, or say what ' +
        'holds it up.',
    );
    expect(dues({ now: '12:00' })).toEqual([['unbegun:lid.sand', on('12:00')]]);
  });

  it('is told again of another start only', () => {
    const [told] = unbegun({ now: '09:30' });
    expect(ringsAgain(told.facts, on('09:30'), told.facts)).toBe(false);
    const [moved] = unbegun({ now: '09:40', planned: [plan('lid.sand', '09:45', '10:35')] });
    expect(moved).toMatchObject({ key: told.key, dueAt: on('10:15') });
    expect(ringsAgain(told.facts, on('09:30'), moved.facts)).toBe(true);
    // Not at once, however often it is planned anew.
    expect(putOff(moved, new Date(on('09:30')))).toEqual({ ...moved, dueAt: on('13:30') });
    expect(putOff(moved, new Date(on('06:00')))).toEqual(moved);
  });

  it('is nothing once it has begun, without a plan, or where nobody is to do it', () => {
    const working: Partial<Task> = { ...sanded, state: 'working', finishedAt: null };
    expect(unbegun({ now: '09:30', begun: { 'lid.sand': working } })).toEqual([]);
    expect(keyed(alarmsAt({ now: '09:30' })).filter((key) => /^unbegun/.test(key))).toEqual([]);
    expect(unbegun({ now: '09:30', planned: [plan('lid.sand', '09:00', '09:50', [])] })).toEqual(
      [],
    );
    const held = (yard: Yard): void => {
      Object.assign(yard.procedures[0].steps[0], { skill: null, crewMin: 0, crewMax: 0 });
    };
    expect(unbegun({ now: '09:30', change: held })).toEqual([]);
  });

  it('counts from when the crew could begin: told, and with what comes first over', () => {
    expect(dues({ now: '09:20', published: '09:20' })).toEqual([['unbegun:lid.sand', on('09:50')]]);
    const late = { 'lid.sand': { ...sanded, finishedAt: on('10:40') } };
    // Its dust has settled by 11:10.
    for (const now of ['10:41', '11:12']) {
      expect(dues({ now, begun: late })).toEqual([['unbegun:lid.one', on('11:40')]]);
    }
    expect(dues({ now: '11:41', begun: late })).toEqual([['unbegun:lid.one', on('11:41')]]);
    // The first coat can be coated from 12:00 on.
    const two = [plan('lid.two', '10:30', '11:30')];
    expect(dues({ now: '10:15', begun: laid, planned: two })).toEqual([
      ['unbegun:lid.two', on('12:30')],
    ]);
    expect(dues({ now: '12:10', begun: laid, planned: two })).toEqual([
      ['unbegun:lid.two', on('12:30')],
    ]);
  });

  it('counts the hours of the crew, overnight and with the hours that the plan gives them', () => {
    const tuesday = '2026-11-03T08:20:00.000Z';
    const late = { ...plan('lid.sand', '15:50', '16:00'), finish: '2026-11-03T08:40:00.000Z' };
    const segments = [
      [on('15:50'), on('16:00')],
      ['2026-11-03T08:00:00.000Z', late.finish],
    ] as const;
    expect(dues({ now: '12:00', planned: [{ ...late, segments }] })).toEqual([
      ['unbegun:lid.sand', tuesday],
    ]);
    const overtime = [plan('lid.sand', '17:00', '17:50')];
    expect(dues({ now: '12:00', planned: overtime })).toEqual([['unbegun:lid.sand', on('17:30')]]);
  });

  it('is put off by whoever has it in hand, until that lapses', () => {
    const lives = { 'lid.sand': { claim: claimOf({ crew: ['ada'], lapsesAt: on('09:50') }) } };
    expect(dues({ now: '09:20', lives })).toEqual([['unbegun:lid.sand', on('09:50')]]);
    expect(dues({ now: '10:00', lives })).toEqual([['unbegun:lid.sand', on('10:00')]]);
  });

  it('that its crew cannot come to is told by what they are to do first', () => {
    const both = [plan('lid.sand', '09:00', '09:50'), plan('box.sand', '10:00', '10:50')];
    const scene = { now: '11:00', planned: both, change: withBox };
    expect(dues(scene)).toEqual([['unbegun:lid.sand', on('11:00')]]);
    const working: Partial<Task> = { ...sanded, state: 'working', finishedAt: on('11:30') };
    expect(dues({ ...scene, begun: { 'lid.sand': working } })).toEqual([]);
    // Another has taken it over: whoever was to do it is free.
    const byAda = { 'lid.sand': { ...working, crew: ['ada'] } };
    expect(dues({ ...scene, begun: byAda })).toEqual([['unbegun:box.sand', on('11:00')]]);
    const late = { 'lid.sand': { ...sanded, finishedAt: on('10:55') } };
    expect(dues({ ...scene, begun: late })).toEqual([['unbegun:box.sand', on('11:25')]]);
    // Nor by what they cannot do yet: its film can be coated from 12:00 on, and bears dust from 14:00.
    const meanwhile = [plan('lid.two', '10:30', '11:30'), plan('box.sand', '11:30', '12:20')];
    expect(dues({ ...scene, now: '10:15', begun: laid, planned: meanwhile })).toEqual([
      ['unbegun:lid.two', on('12:30')],
      ['unbegun:box.sand', on('14:30')],
    ]);
  });

  it('that something else holds up is not told of as if nobody had cared', () => {
    const oneSander = (yard: Yard): void => {
      withBox(yard);
      yard.procedures[0].steps[0].tools = [{ tool: 'sander', count: 1 }];
    };
    const working: Partial<Task> = { ...sanded, state: 'working', crew: ['ada'], finishedAt: null };
    const scene = { planned: [plan('box.sand', '09:00', '09:50')], change: oneSander };
    const begun = { 'lid.sand': working };
    expect(dues({ ...scene, begun, now: '09:40' })).toEqual([]);
    expect(dues({ ...scene, now: '09:40' })).toEqual([['unbegun:box.sand', on('09:40')]]);
    // Free since ten minutes.
    const over = { 'lid.sand': { ...working, state: 'done', finishedAt: on('09:50') } as const };
    expect(dues({ ...scene, begun: over, now: '10:00' })).toEqual([
      ['unbegun:box.sand', on('10:30')],
    ]);
    expect(dues({ ...scene, begun: over, now: '10:30' })).toEqual([
      ['unbegun:box.sand', on('10:30')],
    ]);
  });

  it('is not asked of whoever is at work, be that planned for later or not at all', () => {
    const working: Partial<Task> = { ...sanded, state: 'working', finishedAt: null };
    const begun = { 'box.sand': working };
    const scene = { now: '09:40', change: withBox };
    for (const others of [
      [],
      [plan('box.sand', '14:00', '14:50')],
      [{ ...plan('box.sand', '08:00', '09:01'), state: 'working' as const }],
    ]) {
      const both = { ...scene, planned: [...planned, ...others] };
      expect(dues({ ...both, begun })).toEqual([]);
      const done = { 'box.sand': { ...sanded, finishedAt: on('09:35') } };
      expect(dues({ ...both, begun: done })).toEqual([['unbegun:lid.sand', on('10:05')]]);
    }
    // Ben lends a hand.
    const byAda = { 'box.sand': { ...working, crew: ['ada'] } };
    const lives = {
      'box.sand': { claim: claimOf({ status: 'working', crew: ['ada', 'ben'], lapsesAt: null }) },
    };
    expect(dues({ ...scene, begun: byAda, lives })).toEqual([]);
    expect(dues({ ...scene, begun: byAda })).toEqual([['unbegun:lid.sand', on('09:40')]]);
  });

  it('is not silenced by work that was put aside, but counts from then', () => {
    const scene = {
      now: '10:40',
      change: withBox,
      planned: [plan('box.sand', '09:00', '09:50'), plan('lid.sand', '10:00', '10:50')],
      begun: { 'box.sand': { ...sanded, state: 'paused', finishedAt: null } as const },
    };
    expect(dues(scene)).toEqual([['unbegun:lid.sand', on('10:40')]]);
    const span = { id: claimOf().id, claimId: claimOf().id, crew: ['ben'] };
    const spans = [{ ...span, start: on('09:00'), end: on('10:20') }];
    expect(dues({ ...scene, lives: { 'box.sand': { spans } } })).toEqual([
      ['unbegun:lid.sand', on('10:50')],
    ]);
  });

  it('is told where its start was undone after the plan was made', () => {
    const both = [
      { ...plan('lid.sand', '09:00', '09:50'), state: 'working' as const },
      plan('box.sand', '10:00', '10:50'),
    ];
    expect(dues({ now: '11:00', planned: both, change: withBox })).toEqual([
      ['unbegun:lid.sand', on('11:00')],
    ]);
  });

  it('is not asked of a crew that is not there, nor holds up the work of the others', () => {
    const change = (days: number) => (yard: Yard) => {
      withBox(yard);
      Object.assign(yard.people[1], {
        exceptions: Array.from({ length: days }, (_, k) => ({
          date: new Date(Date.parse(on('00:00')) + k * 86_400_000).toISOString().slice(0, 10),
          shifts: [],
        })),
      });
    };
    const together = [
      plan('lid.sand', '09:00', '09:50', ['Ben', 'Ada']),
      plan('box.sand', '10:00', '10:50', ['Ada']),
    ];
    const scene = { now: '08:30', planned: together };
    expect(dues({ ...scene, change: change(0) })).toEqual([['unbegun:lid.sand', on('09:30')]]);
    expect(dues({ ...scene, change: change(15) })).toEqual([['unbegun:box.sand', on('10:30')]]);
    expect(dues({ now: '08:30', planned: [plan('lid.sand', '09:00', '09:50', ['Zoe'])] })).toEqual(
      [],
    );
    // Of those that are left.
    const gone = [plan('lid.sand', '09:00', '09:50', ['Ben', 'Zoe'])];
    expect(dues({ now: '08:30', planned: gone })).toEqual([['unbegun:lid.sand', on('09:30')]]);
  });
});
