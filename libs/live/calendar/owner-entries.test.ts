import { describe, expect, it } from 'vitest';
import { makeWorkload } from '#planning/workload/make.ts';
import { smallYard } from '#planning/testing/small-yard.ts';
import { ownerEntries, type OwnRefit, type OwnTask } from './owner-entries.ts';
import { planned, sheetOf, when } from './testing/ground.ts';

const own = (id: string, more: Partial<OwnTask> = {}): OwnTask => ({
  ...{ id, name: id, partId: 'lid', state: 'waiting', skillId: 'coating' },
  ...{ startedAt: null, finishedAt: null, replacesId: null },
  ...more,
});

const done = (id: string, day: string, more: Partial<OwnTask> = {}): OwnTask =>
  own(id, {
    state: 'done',
    startedAt: new Date(`2026-11-${day}T22:10:00Z`),
    finishedAt: new Date(`2026-11-${day}T23:20:00Z`),
    ...more,
  });

const yard = smallYard();
const [sand, one] = makeWorkload(yard).tasks;
const plannedTasks = [
  planned(sand, ['ada'], [['08:00', '10:00']]),
  planned({ ...one, id: 'look', skill: null }, [], [['11:00', '11:00']]),
  planned(one, ['ada'], [['12:00', '13:00']]),
];
const finish = {
  ...{ boatId: 'gull', boat: 'Gull', refitId: 'gull-refit', refit: 'Gull refit', ownerId: 'ada' },
  ...{
    promised: null,
    finish: when('22:00'),
    lateMinutes: 0,
    earliest: when('13:00'),
    gapMinutes: 0,
  },
  ...{ tasks: 3, chain: [] },
};
const sheet = { ...sheetOf(yard, plannedTasks), boats: [finish] };

function told(tasks: OwnTask[], zone: string, withPlan = true): string[] {
  const refit: OwnRefit = {
    ...{ id: 'gull-refit', name: 'Gull refit', boat: 'Gull', tasks },
    promised: new Date('2026-11-06T16:00:00Z'),
    parts: [{ id: 'lid', name: 'Lid' }],
  };
  return ownerEntries({ zone, refits: [refit], sheet: withPlan ? sheet : null }).map(
    ({ key, entry: { time, summary, busy } }) =>
      `${key} ${time.kind === 'days' ? time.from : '?'} ${summary}${busy ? ' busy' : ''}`,
  );
}

const waiting = [own('lid.sand'), own('look', { skillId: null }), own('lid.one')];

describe('an owner’s calendar', () => {
  it('has the days that are planned and promised', () => {
    expect(told(waiting, 'Etc/UTC')).toEqual([
      'begins:gull-refit 2026-11-03 Gull: work begins',
      'part:lid 2026-11-03 Gull: Lid to be finished',
      'word:look 2026-11-03 Gull: look (Lid)',
      'finish:gull-refit 2026-11-03 Gull: Gull refit to be finished',
      'promised:gull-refit 2026-11-06 Gull: Gull refit promised',
    ]);
  });

  it('has days of the yard, whatever the owner’s', () => {
    // 22:00 UTC is the next day in Auckland, and 16:00 too.
    expect(told(waiting, 'Pacific/Auckland').slice(3)).toEqual([
      'finish:gull-refit 2026-11-04 Gull: Gull refit to be finished',
      'promised:gull-refit 2026-11-07 Gull: Gull refit promised',
    ]);
  });

  it('has the real days once they are past', () => {
    const all = [
      done('lid.sand', '02'),
      done('look', '03', { skillId: null }),
      done('lid.one', '04'),
    ];
    expect(told(all, 'Etc/UTC')).toEqual([
      'begins:gull-refit 2026-11-02 Gull: work began',
      'part:lid 2026-11-04 Gull: Lid finished',
      'word:look 2026-11-03 Gull: look (Lid)',
      'finish:gull-refit 2026-11-04 Gull: Gull refit finished',
      'promised:gull-refit 2026-11-06 Gull: Gull refit promised',
    ]);
  });

  it('counts neither what no plan has nor what was dropped', () => {
    const all = [...waiting, own('other-way'), own('gone', { state: 'dropped' })];
    expect(told(all, 'Etc/UTC')[1]).toBe('part:lid 2026-11-03 Gull: Lid to be finished');
  });

  it('says no day for a part of which something has to be done again and nobody has planned it', () => {
    const spoilt = done('lid.one', '04', { state: 'redo' });
    const again = own('again', { replacesId: 'lid.one' });
    const all = [done('lid.sand', '02'), done('look', '03', { skillId: null }), spoilt, again];
    expect(told(all, 'Etc/UTC').some((line) => line.startsWith('part:'))).toBe(false);
    expect(told(all, 'Etc/UTC')).toContain(
      'finish:gull-refit 2026-11-03 Gull: Gull refit to be finished',
    );
    const made = [...all.slice(0, 3), done('again', '05', { replacesId: 'lid.one' })];
    expect(told(made, 'Etc/UTC')[1]).toBe('part:lid 2026-11-05 Gull: Lid finished');
  });

  it('has what is promised where nothing is planned', () => {
    expect(told(waiting, 'Etc/UTC', false)).toEqual([
      'promised:gull-refit 2026-11-06 Gull: Gull refit promised',
    ]);
  });
});
