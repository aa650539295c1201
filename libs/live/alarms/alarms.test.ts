import { describe, expect, it } from 'vitest';
import { heatedTo } from '#planning/testing/small-yard.ts';
import type { Task } from '#planning/workload/workload.ts';
import type { Yard } from '#planning/yard/yard.ts';
import { type AlarmFacts, ringsAgain } from './facts.ts';
import {
  alarmsAt,
  claimOf,
  coated,
  keyed,
  laid,
  on,
  one,
  sanded,
  words,
  type Scene,
} from './testing/scene.ts';
import { alarmWords } from './words.ts';

describe('windows of what was laid', () => {
  it('are told a quarter of an hour before they open, to whoever has the work in hand', () => {
    const alarms = alarmsAt({
      now: '10:00',
      begun: laid,
      lives: { 'lid.two': { claim: claimOf() } },
    });
    const opens = one(alarms, 'opens:lid.two');
    expect(opens).toMatchObject({ dueAt: on('11:45'), audience: ['ben'], taskId: 'lid.two' });
    expect(words(opens)).toBe('Coat two (Lid, Gull) opens in 15 min, at 12:00.');
    // Nobody has it: whoever runs the yard is told.
    expect(one(alarmsAt({ now: '10:00', begun: laid }), 'opens:').audience).toEqual(['ada']);
  });

  it('are told at once where they open sooner than that', () => {
    const opens = one(alarmsAt({ now: '11:53', begun: laid }), 'opens:');
    expect(opens.dueAt).toBe(on('11:53'));
    expect(words(opens)).toBe('Coat two (Lid, Gull) opens in 7 min, at 12:00.');
    expect(keyed(alarmsAt({ now: '12:00', begun: laid }))).not.toContain('opens:lid.two');
  });

  it('close with what it takes to be in time, and what comes after', () => {
    const amounts = (yard: Yard): void => {
      const coat = { kind: 'coat', gramsPerM2: 300, coats: 1, wastePercent: 0 } as const;
      yard.procedures[0].steps[3].quantity = coat;
    };
    const alarms = alarmsAt({ now: '10:00', begun: laid, change: amounts });
    // An hour of coating has to be over by 15:00; 40 minutes before it has to begin it is told.
    const closes = one(alarms, 'closes:');
    expect(closes).toMatchObject({ dueAt: on('13:20'), audience: ['ada'] });
    expect(words(closes)).toBe(
      'Coat two (Lid, Gull) closes in 1 h 40 min: begin to coat by 14:00 to be done by 15:00, ' +
        'or it must be sanded.',
    );
    expect(alarmWords(closes.facts, new Date(on('14:30')), 'Etc/UTC')).toBe(
      'Coat two (Lid, Gull) closes in 30 min: it takes longer than that, so ask the foreman ' +
        'before you begin.',
    );
    expect(alarmWords(closes.facts, new Date(on('15:00')), 'Etc/UTC')).toBeNull();
  });

  it('in the words of a window that takes no time to use', () => {
    const facts = {
      kind: 'closes',
      what: 'Hull',
      verb: 'coat',
      closesAt: on('14:20'),
      startBy: on('14:20'),
      otherwise: 'it must be sanded',
      after: '',
    } as const;
    expect(alarmWords(facts, new Date(on('13:40')), 'Etc/UTC')).toBe(
      'Hull closes in 40 min: coat by 14:20 or it must be sanded.',
    );
    const told = { ...facts, after: 'it has to be abraded first' };
    expect(alarmWords(told, new Date(on('13:40')), 'Etc/UTC')).toBe(
      'Hull closes in 40 min: coat by 14:20 or it must be sanded. After that it has to be abraded first.',
    );
    // On the yard's own wall.
    expect(alarmWords(facts, new Date(on('13:40')), 'Europe/Athens')).toContain('by 16:20');
    expect(alarmWords(facts, new Date('2026-11-01T13:40:00Z'), 'Etc/UTC')).toBe(
      'Hull closes in 24 h 40 min: coat by Mon 2 Nov 14:20 or it must be sanded.',
    );
  });

  it('are looked at when they can no longer be kept, and are past once', () => {
    const alarms = alarmsAt({ now: '10:00', begun: laid });
    const missed = one(alarms, 'missed:');
    expect(missed.dueAt).toBe(on('14:00'));
    const late = alarmsAt({ now: '15:10', begun: laid });
    expect(keyed(late)).toEqual([missed.key]);
    expect(words(one(late, 'missed:'))).toBe(
      'Coat two (Lid, Gull) missed: its window shut at 15:00. Nothing goes on it before the ' +
        'foreman has looked at it.',
    );
  });

  it('tell of the preparation that was added', () => {
    const added = [{ reworkId: 'r-1', taskId: 'lid.two', words: 'Abrade, then wipe.' }];
    const alarms = alarmsAt({ now: '15:10', begun: laid, added });
    const told = one(alarms, 'missed:r-1');
    expect(told).toMatchObject({ dueAt: on('15:10'), audience: ['ada'] });
    expect(words(told)).toBe('Coat two (Lid, Gull): preparation added. Abrade, then wipe.');
    const facts = { ...told.facts, rework: null, otherWay: 'Left is to abrade.' } as AlarmFacts;
    expect(words({ ...told, facts })).toBe('Coat two (Lid, Gull) missed. Left is to abrade.');
  });

  it('are nothing while other work comes first, or once the work has begun', () => {
    const begun = { 'lid.one': coated };
    const unsanded = alarmsAt({
      now: '10:00',
      begun,
      change: (yard) => {
        yard.procedures[0].links.push({ ...yard.procedures[0].links[0], id: 'x', to: 'two' });
      },
    });
    expect(keyed(unsanded).filter((key) => key.startsWith('opens'))).toEqual([]);
    const working = {
      ...sanded,
      state: 'working',
      startedAt: on('12:10'),
      finishedAt: null,
    } as const;
    const alarms = alarmsAt({ now: '12:30', begun: { ...laid, 'lid.two': working } });
    expect(keyed(alarms).filter((key) => /^(opens|closes|missed)/.test(key))).toEqual([]);
  });

  it('move with the clocks', () => {
    const colder = (yard: Yard): void => {
      yard.spaces[0].climate = heatedTo(10);
    };
    const before = one(alarmsAt({ now: '10:00', begun: laid }), 'opens:');
    const after = one(alarmsAt({ now: '10:00', begun: laid, change: colder }), 'opens:');
    expect(after.key).toBe(before.key);
    // 240 minutes at 10 degrees instead of 120.
    expect([before.dueAt, after.dueAt]).toEqual([on('11:45'), on('13:45')]);
    expect(ringsAgain(before.facts, on('11:45'), after.facts)).toBe(true);
    expect(ringsAgain(after.facts, on('13:45'), after.facts)).toBe(false);
  });
});

describe('films', () => {
  const minimum = (celsius: number) => (yard: Yard) => {
    yard.materials[0].minimumC = celsius;
  };

  /** From then until eight in the evening it is 10 degrees, and the resin cures from 15 on. */
  const warmUntil = (from: string) => (yard: Yard) => {
    minimum(15)(yard);
    yard.spaces[0].climate = {
      kind: 'heated',
      lagHours: 0,
      setPoints: [
        { weekdays: [1], from: '00:00', celsius: 20 },
        { weekdays: [1], from, celsius: 10 },
        { weekdays: [1], from: '20:00', celsius: 20 },
      ],
    };
  };

  it('that stand too cold are told at once, to those who laid them and the foreman', () => {
    const cold = one(
      alarmsAt({ now: '10:30', begun: laid, change: minimum(25) }),
      'too-cold:lid.one',
    );
    expect(cold).toMatchObject({ dueAt: on('10:30'), audience: ['ben', 'ada'] });
    expect(words(cold)).toContain(
      'Coat one (Lid, Gull): too cold to cure. Shop is down to 20 °C, Resin needs 25 °C',
    );
    expect(words(cold)).toContain('It stands still until it is warmer.');
  });

  it('are left alone in the warm, and once nothing waits for them', () => {
    const none = (scene: Scene): string[] =>
      keyed(alarmsAt(scene)).filter((key) => key.startsWith('too-cold'));
    expect(none({ now: '10:30', begun: laid })).toEqual([]);
    // The first coat was tack-free when it grew cold, and lies under the second by now.
    const covered = {
      'lid.sand': sanded,
      'lid.one': { ...coated, startedAt: on('02:00'), finishedAt: on('03:00') },
      'lid.key': sanded,
      'lid.two': coated,
    };
    const change = warmUntil('09:00');
    expect(none({ now: '10:30', begun: covered, change })).toEqual(['too-cold:lid.two']);
  });

  it('foreseen cold is told an hour before', () => {
    const cold = one(
      alarmsAt({ now: '10:30', begun: laid, change: warmUntil('13:00') }),
      'too-cold:',
    );
    expect(Math.abs(Date.parse(cold.dueAt) - Date.parse(on('12:00')))).toBeLessThanOrEqual(600_000);
    expect(words(cold)).toMatch(/Shop is from 1[23]:\d\d down to 10 °C until (19|20):\d\d/);
  });
});

describe('work in hand', () => {
  /** Begun at 09:00 and expected at 10:00: 60 minutes of coating. */
  const coating: Partial<Task> = {
    state: 'working',
    startedAt: on('09:00'),
    finishedAt: on('10:00'),
    crew: ['ben'],
  };
  const begun = { 'lid.sand': sanded, 'lid.one': coating };
  const life = { claim: claimOf({ status: 'working', lapsesAt: null, startedAt: on('09:00') }) };
  const weighed = (yard: Yard): void => {
    yard.procedures[0].steps[1].quantity = {
      kind: 'coat',
      gramsPerM2: 300,
      coats: 1,
      wastePercent: 0,
    };
    yard.materials[0].hardener = {
      kind: 'ratio',
      per100: { value: 50, source: 'made up', trust: 'sheet', spread: null },
    };
  };

  it('has cups whose pot life ends', () => {
    const scene = { now: '09:00', begun, lives: { 'lid.one': life }, change: weighed };
    const cups = alarmsAt(scene).filter(({ key }) => key.startsWith('pot-life'));
    expect(cups.length).toBeGreaterThan(1);
    const [first] = cups;
    if (first.facts.kind !== 'pot-life') throw new Error(first.key);
    const { mixedAt, endsAt } = first.facts;
    expect(mixedAt).toBe(on('09:00'));
    const minutes = (Date.parse(endsAt) - Date.parse(mixedAt)) / 60_000;
    expect(Date.parse(endsAt) - Date.parse(first.dueAt)).toBe(Math.min(5, minutes / 4) * 60_000);
    expect(words(first)).toContain('pot life of this cup ends at ');
    expect(words(first)).toContain(`cup 1 of ${String(cups.length)}`);
    expect(first.audience).toEqual(['ben']);
    // Done: no cup is left.
    const over = { 'lid.sand': sanded, 'lid.one': coated };
    expect(keyed(alarmsAt({ ...scene, begun: over })).filter((key) => /^pot/.test(key))).toEqual(
      [],
    );
  });

  it('is asked after when it goes on too long', () => {
    const late = one(
      alarmsAt({ now: '09:30', begun, lives: { 'lid.one': life } }),
      'overrun:lid.one',
    );
    expect(late).toMatchObject({ dueAt: on('10:15'), audience: ['ben', 'ada'] });
    expect(words(late)).toContain('Coat one (Lid, Gull) runs over: it was to be done by 10:00.');
    // Half an hour more was reported: a later end, and another alarm if that is not kept either.
    const more = { ...begun, 'lid.one': { ...coating, finishedAt: on('10:30') } };
    const next = one(
      alarmsAt({ now: '10:20', begun: more, lives: { 'lid.one': life } }),
      'overrun:',
    );
    expect(next.dueAt).toBe(on('10:48'));
    expect(ringsAgain(late.facts, on('10:15'), next.facts)).toBe(true);
    expect(ringsAgain(late.facts, on('10:15'), late.facts)).toBe(false);
  });

  it('is free again where nobody begins, which its crew is told before', () => {
    const lives = { 'lid.sand': { claim: claimOf() } };
    const lapses = one(alarmsAt({ now: '09:00', lives }), 'lapses:');
    expect(lapses).toMatchObject({ dueAt: on('09:25'), audience: ['ben'], taskId: 'lid.sand' });
    expect(words(lapses)).toBe(
      'Sand (Lid, Gull): your claim lapses in 5 min, at 09:30. Start it, or it is free again.',
    );
    const short = { 'lid.sand': { claim: claimOf({ lapsesAt: on('09:02') }) } };
    expect(alarmsAt({ now: '09:00', lives: short })).toEqual([]);
  });
});

it('nobody is told twice, and nobody whom the yard does not have', () => {
  const crew = ['gone', 'ben', 'ada', 'ben'];
  const lives = { 'lid.two': { claim: claimOf({ crew }) } };
  const alarms = alarmsAt({ now: '10:00', begun: laid, lives });
  expect(one(alarms, 'closes:').audience).toEqual(['ben', 'ada']);
  expect(new Set(keyed(alarms)).size).toBe(alarms.length);
});
