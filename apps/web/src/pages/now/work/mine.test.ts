import { describe, expect, test } from 'vitest';
import type { Schema } from '../../../api/client.ts';
import type { Command } from '../../../offline/deed.ts';
import type { Claim, NowData, ReadyTask } from '../now-data.ts';
import { standingOf, type Told, workedMs } from './mine.ts';

const bram = { id: 'bram', name: 'Bram' };
const anke = { id: 'anke', name: 'Anke' };

const ready = (taskId: string): ReadyTask => ({
  ...{ taskId, name: taskId, partId: 'hatch', part: 'Hatch', boatId: 'petrel', boat: 'Petrel' },
  ...{ refitId: 'winter', spaceId: 'bay', space: 'Bay', skill: 'laminating', minLevel: 1 },
  ...{
    crewMin: 1,
    crewMax: 2,
    inOneGo: false,
    workMinutes: 60,
    state: 'ready',
    neededBy: null,
    because: null,
    notes: [],
  },
  ...{ planned: null, plannedForMe: false, claim: null, notForMe: null, closes: null },
  ...{ openMinutes: null, startBy: null, mix: null, bond: null, consumables: [], warnings: [] },
  cautions: [],
});

const claim = (taskId: string, status: Claim['status'], change: Partial<Claim> = {}): Claim => ({
  ...{ id: `claim-of-${taskId}`, taskId, task: taskId, part: 'Hatch', boat: 'Petrel' },
  ...{ holder: bram, crew: [bram], status, claimedAt: '2026-11-26T08:00:00.000Z' },
  ...{ lapsesAt: null, startedAt: null, finishedAt: null, releasedAt: null, override: null },
  revision: 1,
  ...change,
});

const read = (tasks: readonly ReadyTask[], claims: readonly Claim[] = []): NowData => ({
  ready: {
    ...{ at: '2026-11-26T08:00:00Z', planId: 'plan', readyCount: tasks.length, waitingCount: 0 },
    ...{ ready: [...tasks], waiting: [], nextCursor: null },
  },
  ...{ claims, tasks: {}, briefings: {}, names: [] },
});

let minute = 0;
const told = (command: Command, isUnsent = true, claimId: string | null = null): Told => {
  minute += 1;
  const at = `2026-11-26T09:${String(minute).padStart(2, '0')}:00.000Z`;
  return { command, at, claimId, isUnsent };
};

describe('how the work stands', () => {
  test('is what was read where nothing was done since', () => {
    const data = read(
      [ready('coat'), ready('sand')],
      [
        claim('glue', 'paused'),
        claim('fair', 'working', { startedAt: '2026-11-26T08:05:00.000Z' }),
        claim('old', 'finished'),
      ],
    );
    const { inHand, ready: free, ended } = standingOf(data, [], bram);
    expect(inHand.map(({ taskId, state }) => [taskId, state])).toEqual([
      ['fair', 'working'],
      ['glue', 'paused'],
    ]);
    expect(free.map(({ taskId }) => taskId)).toEqual(['coat', 'sand']);
    expect(ended).toEqual([]);
  });

  test('follows what was done out of reach, in order, and says that it is not sent', () => {
    const data = read([ready('coat')]);
    const taskId = 'coat';
    const begun = [told({ kind: 'claim', taskId }), told({ kind: 'start', taskId })];
    const working = standingOf(data, begun, bram);
    expect(working.ready).toEqual([]);
    expect(working.inHand).toMatchObject([
      { taskId, state: 'working', startedAt: begun[1].at, crew: [bram], isUnsent: true },
    ]);
    const over = standingOf(data, [...begun, told({ kind: 'finish', taskId })], bram);
    expect(over.inHand).toEqual([]);
    expect(over.ended).toMatchObject([{ kind: 'finish', mine: { taskId, isUnsent: true } }]);
  });

  test('has a claim that the service made by its id, so that it is begun as a command', () => {
    const taken = told({ kind: 'claim', taskId: 'coat' }, false, 'made');
    const { inHand } = standingOf(read([ready('coat')]), [taken], bram);
    expect(inHand).toMatchObject([{ state: 'claimed', claimId: 'made', isUnsent: false }]);
  });

  test('takes back only the last report of the same task, and not a tack test', () => {
    const data = read([ready('coat'), ready('sand')]);
    const deeds = [
      told({ kind: 'claim', taskId: 'coat' }),
      told({ kind: 'claim', taskId: 'sand' }),
      told({ kind: 'start', taskId: 'coat' }),
      told({ kind: 'tack-test', taskId: 'coat', found: 'tacky' }),
      told({ kind: 'undo', taskId: 'coat' }),
    ];
    const { inHand } = standingOf(data, deeds, bram);
    expect(inHand.map(({ taskId, state }) => [taskId, state])).toEqual([
      ['coat', 'claimed'],
      ['sand', 'claimed'],
    ]);
  });

  test('marks a taking back of what is known already as not sent, and leaves the rest to the service', () => {
    const data = read([], [claim('glue', 'working')]);
    const { inHand } = standingOf(data, [told({ kind: 'undo', taskId: 'glue' })], bram);
    expect(inHand).toMatchObject([{ taskId: 'glue', state: 'working', isUnsent: true }]);
  });

  test('gives back what was not begun to the list, and takes leaving a crew off the hand', () => {
    const data = read(
      [ready('coat')],
      [claim('coat', 'open'), claim('glue', 'working', { crew: [anke, bram] })],
    );
    const { inHand, ready: free } = standingOf(
      data,
      [told({ kind: 'release', taskId: 'coat' }), told({ kind: 'leave', taskId: 'glue' })],
      bram,
    );
    expect(inHand).toEqual([]);
    expect(free).toMatchObject([{ taskId: 'coat', state: 'ready', claimId: null, crew: [] }]);
  });

  test('keeps what is left as whoever is at it has said', () => {
    const data = read([], [claim('glue', 'working')]);
    const said = told({ kind: 'pause', taskId: 'glue', leftMinutes: 45 });
    expect(standingOf(data, [said], bram).inHand).toMatchObject([
      { state: 'paused', leftMinutes: 45 },
    ]);
  });

  const task = (taskId: string, spans: Schema<'Task'>['spans']): Schema<'Task'> => ({
    ...{ id: taskId, name: taskId, jobId: 'job', part: 'Hatch', boat: 'Petrel', state: 'paused' },
    ...{ stands: 'paused', opensAt: null, why: null, skill: 'fairing', minLevel: 1, crewMin: 1 },
    ...{ crewMax: 2, inOneGo: false, startedAt: null, spans, finishedAt: null, leftMinutes: null },
    ...{ fixedStart: null, crew: [], after: [], revision: 1 },
  });

  test('counts as time at it what was worked under the claim, and no pause', () => {
    const data = {
      ...read([], [claim('glue', 'paused', { startedAt: '2026-11-26T07:00:00.000Z' })]),
      tasks: {
        glue: task('glue', [
          { claimId: 'of-others', start: '2026-11-25T07:00:00Z', end: '2026-11-25T09:00:00Z' },
          { claimId: 'claim-of-glue', start: '2026-11-26T07:00:00Z', end: '2026-11-26T07:20:00Z' },
        ]),
      },
    };
    const taskId = 'glue';
    const worked = (deeds: readonly Told[], at: string): number => {
      const [mine] = standingOf(data, deeds, bram).inHand;
      return workedMs(mine.worked, Date.parse(at)) / 60_000;
    };
    const on = { ...told({ kind: 'resume', taskId }), at: '2026-11-26T10:00:00.000Z' };
    const off = { ...told({ kind: 'pause', taskId }), at: '2026-11-26T10:05:00.000Z' };
    expect(worked([], '2026-11-26T10:00:00Z')).toBe(20);
    expect(worked([on], '2026-11-26T10:03:00Z')).toBe(23);
    expect(worked([on, off], '2026-11-26T11:00:00Z')).toBe(25);
    // Read anew meanwhile: what was told before is in it already.
    expect(worked([off], '2026-11-26T11:00:00Z')).toBe(20);
  });

  test('knows of wet work, before anything else is known, that it is not put aside', () => {
    const [mine] = standingOf(
      read([{ ...ready('coat'), inOneGo: true }]),
      [told({ kind: 'claim', taskId: 'coat' }), told({ kind: 'start', taskId: 'coat' })],
      bram,
    ).inHand;
    expect(mine).toMatchObject({ state: 'working', inOneGo: true });
  });
});
