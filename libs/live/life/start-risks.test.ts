import { describe, expect, it } from 'vitest';
import { makeWorkload } from '#planning/workload/make.ts';
import type { Task } from '#planning/workload/workload.ts';
import { heatedTo, smallYard } from '#planning/testing/small-yard.ts';
import type { Yard } from '#planning/yard/yard.ts';
import { startRisks } from './start-risks.ts';

/** The first coat: 30 minutes, and 15 for each of 2 m², is an hour of Ada's, 08:00 to 16:00. */
function risks(
  at: string,
  change: (yard: Yard) => void = () => undefined,
  more: Partial<Task> = {},
) {
  const yard = smallYard(change);
  const task = makeWorkload(yard).tasks.find(({ stepId }) => stepId === 'one');
  if (task === undefined) throw new Error('the small yard has no first coat');
  const input = { yard, task: { ...task, ...more }, crew: ['ada'], at };
  return startRisks(input).map(({ code, path, message }) => `${code} ${path}: ${message}`);
}

const hot = (celsius: number) => (yard: Yard) => {
  yard.spaces[0].climate = heatedTo(celsius);
};
const oneBatch: Partial<Task> = {
  oneBatch: true,
  quantity: { kind: 'coat', gramsPerM2: 50, coats: 1, wastePercent: 0 },
};

describe('a wet start', () => {
  it('is safe when it is over by the end of the shift', () => {
    expect(risks('2026-11-02T08:00:00Z')).toEqual([]);
    expect(risks('2026-11-02T15:00:00Z')).toEqual([]);
  });

  it('is not one minute later, nor with tools to clean after it', () => {
    const late = risks('2026-11-02T15:01:00Z');
    expect(late).toHaveLength(1);
    expect(late[0]).toMatch(
      /^work\.unsafe-start crew: it would run past Ada's shift: until .*16:01/,
    );
    expect(risks('2026-11-02T15:00:00Z', undefined, { cleanDownMinutes: 10 })).toHaveLength(1);
  });

  it('is not when nobody of the crew is at work', () => {
    expect(risks('2026-11-02T07:59:00Z')[0]).toContain('Ada is not at work at');
    expect(risks('2026-11-07T10:00:00Z')).toHaveLength(1);
  });

  it('may run into overtime that she can be asked for', () => {
    const overtime = (yard: Yard): void => {
      yard.people[0].overtime = [{ weekday: 1, from: '16:00', to: '17:00' }];
    };
    expect(risks('2026-11-02T15:30:00Z', overtime)).toEqual([]);
  });

  it('takes as long as her speed and the space make it', () => {
    const slow = (yard: Yard): void => {
      yard.people[0].abilities[0].speed = 50;
    };
    expect(risks('2026-11-02T14:00:00Z', slow)).toEqual([]);
    expect(risks('2026-11-02T14:01:00Z', slow)).toHaveLength(1);
    const cramped = (yard: Yard): void => {
      yard.spaces[0].workPercent = 200;
    };
    expect(risks('2026-11-02T14:01:00Z', cramped)).toHaveLength(1);
  });

  it('is refused where one batch goes off first, as warm as it is', () => {
    // Thirty minutes of pot life at 20 °C, 60 at 10: an hour is just enough there.
    const warm = risks('2026-11-02T08:00:00Z', hot(20), oneBatch);
    expect(warm).toHaveLength(1);
    expect(warm[0]).toMatch(/the batch lasts \d+ min at 20 °C, and this crew takes 60 min/);
    expect(risks('2026-11-02T08:00:00Z', hot(10), oneBatch)).toEqual([]);
  });

  it('in several cups is refused only where none is small enough, or it is too warm to mix', () => {
    const cups = { ...oneBatch, oneBatch: false };
    expect(risks('2026-11-02T08:00:00Z', hot(20), cups)).toEqual([]);
    expect(risks('2026-11-02T08:00:00Z', hot(40), cups).join()).toContain(
      'may not be mixed at 40 °C',
    );
  });

  it('of dry work has none', () => {
    expect(risks('2026-11-02T23:00:00Z', undefined, { material: null })).toEqual([]);
  });
});
