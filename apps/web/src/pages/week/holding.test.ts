import { describe, expect, it } from 'vitest';
import { holdingOf, holds } from './holding.ts';
import type { Model, PictureTask } from './model.ts';
import { moment, small, task } from './small-picture.ts';

const at = (model: Model, when: string) =>
  holdingOf(model, (id) => model.byId.get(id)?.task.now, Date.parse(moment(when)));
const ids = (works: readonly { readonly task: PictureTask }[]) => works.map((one) => one.task.id);

describe('whether the week holds', () => {
  const coat = task({
    id: 'coat',
    at: [['08:00', '09:00']],
    windows: [
      {
        toTask: 'next',
        toName: 'second coat',
        kind: 'bond',
        opens: moment('12:00'),
        closes: moment('18:00'),
        starts: moment('13:00'),
      },
    ],
  });
  const next = task({ id: 'next', at: [['13:00', '14:00']] });
  const begun: PictureTask['now'] = {
    state: 'working',
    crew: ['bram'],
    startedAt: moment('08:00'),
    finishedAt: null,
  };

  it('does while everything is begun and done in time', () => {
    const holding = at(small([coat, next]), '08:10');
    expect(holds(holding)).toBe(true);
    expect(holding.shutting.map(({ window }) => window.toName)).toEqual(['second coat']);
  });

  it('does not when work has not begun, or goes on too long', () => {
    const late = at(small([coat, next]), '08:20');
    expect(ids(late.behind)).toEqual(['coat']);
    expect(holds(late)).toBe(false);
    const overdue = at(small([{ ...coat, now: begun }, next]), '09:20');
    expect(ids(overdue.overdue)).toEqual(['coat']);
    expect(overdue.behind).toEqual([]);
  });

  it('does not when work is left from before its days, or put aside past its end', () => {
    const left = task({ id: 'left', at: [['08:00', '09:00']] });
    const start = '2026-11-26T08:00:00Z';
    const before = { ...left, start, finish: '2026-11-26T09:00:00Z' };
    const holding = at(small([next, before]), '07:00');
    expect(ids(holding.behind)).toEqual(['left']);
    const paused = { ...coat, now: { ...begun, state: 'paused' as const } };
    expect(ids(at(small([paused, next]), '09:20').overdue)).toEqual(['coat']);
  });

  it('takes what was put aside and is claimed anew for begun', () => {
    const anew = { ...begun, state: 'claimed' as const };
    const before = small([
      { ...coat, now: anew },
      { ...next, now: anew },
    ]);
    expect(at(before, '08:50')).toMatchObject({ behind: [], overdue: [], shutting: [] });
    expect(ids(at(before, '09:20').overdue)).toEqual(['coat']);
    const claimed = small([{ ...coat, now: { ...anew, startedAt: null } }]);
    expect(ids(at(claimed, '08:20').behind)).toEqual(['coat']);
  });

  it('does when something is worked on before its time, which is told', () => {
    const holding = at(small([{ ...next, now: begun }]), '08:10');
    expect(ids(holding.ahead)).toEqual(['next']);
    expect(holds(holding)).toBe(true);
    expect(ids(at(small([{ ...next, now: begun }]), '13:10').ahead)).toEqual([]);
  });

  it('does not when a boat breaks its promise', () => {
    const [boat] = small([]).picture.boats;
    const boats = [boat, { ...boat, refitId: 'late', lateMinutes: 90 }];
    const holding = at(small([], { boats }), '08:00');
    expect(holding.late.map(({ refitId }) => refitId)).toEqual(['late']);
    expect(holds(holding)).toBe(false);
  });

  it('is not asked of a plan that nobody works to', () => {
    const holding = at(small([coat, next], { isPublished: false }), '15:00');
    expect(holding).toMatchObject({ behind: [], overdue: [], ahead: [], shutting: [] });
  });
});
