import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { DomainError } from '#kernel/error.ts';

import { dateOf, timeOf } from './local-date.ts';
import {
  formatLocal,
  instantOf,
  isoOf,
  localDayOf,
  minuteOfLocalDay,
  toInstant,
  toLocal,
  wallAt,
  wallClock,
} from './local-time.ts';
import { isZone, offsetsOf } from './zone.ts';

const utc = (date: string, time: string, zone: string): string =>
  isoOf(toInstant(date, time, zone)).slice(0, 16);

describe('wall times around clock changes', () => {
  it.each([
    // Summer time in Great Britain: last Sunday of March to last Sunday of October at 01:00 GMT
    // (Summer Time Order 2002, SI 2002/262).
    ['Europe/London', '2026-03-29', '00:59', '2026-03-29T00:59'],
    ['Europe/London', '2026-03-29', '01:00', '2026-03-29T01:00'], // skipped: shown as 02:00
    ['Europe/London', '2026-03-29', '01:30', '2026-03-29T01:30'], // skipped: shown as 02:30
    ['Europe/London', '2026-03-29', '02:00', '2026-03-29T01:00'],
    ['Europe/London', '2026-10-25', '00:59', '2026-10-24T23:59'],
    ['Europe/London', '2026-10-25', '01:30', '2026-10-25T00:30'], // shown twice: the earlier
    ['Europe/London', '2026-10-25', '02:00', '2026-10-25T02:00'],
    // United States: second Sunday of March to first Sunday of November at 02:00 (15 USC 260a).
    ['America/New_York', '2026-03-08', '01:59', '2026-03-08T06:59'],
    ['America/New_York', '2026-03-08', '02:30', '2026-03-08T07:30'], // skipped: shown as 03:30
    ['America/New_York', '2026-03-08', '03:00', '2026-03-08T07:00'],
    ['America/New_York', '2026-11-01', '01:30', '2026-11-01T05:30'], // shown twice: the earlier
    ['America/New_York', '2026-11-01', '02:00', '2026-11-01T07:00'],
    // Lord Howe Island: half an hour, first Sunday of October to first Sunday of April at 02:00,
    // between UTC+10:30 and UTC+11 (IANA tz database, australasia; from memory).
    ['Australia/Lord_Howe', '2026-10-04', '01:59', '2026-10-03T15:29'],
    ['Australia/Lord_Howe', '2026-10-04', '02:15', '2026-10-03T15:45'], // skipped: shown as 02:45
    ['Australia/Lord_Howe', '2026-10-04', '02:30', '2026-10-03T15:30'],
    ['Australia/Lord_Howe', '2026-04-05', '01:29', '2026-04-04T14:29'],
    ['Australia/Lord_Howe', '2026-04-05', '01:45', '2026-04-04T14:45'], // shown twice: the earlier
    ['Australia/Lord_Howe', '2026-04-05', '02:00', '2026-04-04T15:30'],
    // Samoa skipped the whole of 30 December 2011 (IANA tz database; from memory).
    ['Pacific/Apia', '2011-12-29', '23:59', '2011-12-30T09:59'],
    ['Pacific/Apia', '2011-12-30', '12:00', '2011-12-30T22:00'], // skipped: shown as the 31st
    ['Pacific/Apia', '2011-12-31', '00:00', '2011-12-30T10:00'],
    ['UTC', '2026-03-29', '01:30', '2026-03-29T01:30'],
  ])('%s %s %s is %sZ', (zone, date, time, wanted) => {
    expect(utc(date, time, zone)).toBe(wanted);
  });
});

const zones = fc.constantFrom(
  ...['Europe/London', 'America/New_York', 'Australia/Lord_Howe', 'UTC', 'Pacific/Apia'],
  ...['Africa/Casablanca', 'Asia/Kathmandu', 'America/St_Johns', 'Pacific/Chatham', 'Asia/Tehran'],
);
// 1975 to 2037
const instants = fc.integer({ min: 2_600_000, max: 35_700_000 });

/** The offset as Intl spells it ("GMT+10:30"), which the library does not read. */
function spelledOffset(zone: string, instant: number): number {
  const parts = new Intl.DateTimeFormat('en-US', {
    timeZone: zone,
    timeZoneName: 'longOffset',
  }).formatToParts(instant * 60_000);
  const name = parts.find((part) => part.type === 'timeZoneName')?.value ?? '';
  const found = /^GMT([+-])(\d{2}):(\d{2})$/.exec(name);
  if (found === null && name !== 'GMT') throw new Error(`unreadable offset ${name}`);
  if (found === null) return 0;
  const size = Number(found[2]) * 60 + Number(found[3]);
  return found[1] === '-' ? -size : size;
}

describe('laws of zones', () => {
  it('has the offset that the runtime spells out', () => {
    fc.assert(
      fc.property(zones, instants, (zone, instant) => {
        expect(offsetsOf(zone)(instant)).toBe(spelledOffset(zone, instant));
      }),
      { numRuns: 500 },
    );
  });

  it('comes back to the same wall time, at that instant or where it was shown before', () => {
    fc.assert(
      fc.property(zones, instants, (zone, instant) => {
        const { date, time } = toLocal(instant, zone);
        const back = toInstant(date, time, zone);
        expect(toLocal(back, zone)).toEqual({ date, time });
        expect(instant - back).toBeGreaterThanOrEqual(0);
        expect(instant - back).toBeLessThanOrEqual(60);
      }),
      { numRuns: 1000 },
    );
  });

  it('takes the first instant that shows a wall time, or moves on by what was skipped', () => {
    // Walks every minute around a change of 2026 and looks for the wall time.
    const changes = [
      ['Europe/London', '2026-03-29T01:00Z'],
      ['Europe/London', '2026-10-25T01:00Z'],
      ['America/New_York', '2026-03-08T07:00Z'],
      ['America/New_York', '2026-11-01T06:00Z'],
      ['Australia/Lord_Howe', '2026-10-03T15:30Z'],
      ['Australia/Lord_Howe', '2026-04-04T15:00Z'],
    ] as const;
    for (const [zone, iso] of changes) {
      const change = instantOf(iso);
      const before = spelledOffset(zone, change - 1);
      const after = spelledOffset(zone, change);
      expect(after).not.toBe(before);
      const offset = (instant: number): number => (instant < change ? before : after);
      const shown = new Map<number, number>();
      for (let instant = change - 300; instant < change + 300; instant++) {
        const wall = instant + offset(instant);
        if (!shown.has(wall)) shown.set(wall, instant);
      }
      const wrong: string[] = [];
      for (let wall = change + before - 120; wall < change + before + 120; wall++) {
        const wanted = shown.get(wall) ?? shown.get(wall + after - before);
        const day = Math.floor(wall / 1440);
        const time = timeOf(wall - day * 1440);
        if (toInstant(dateOf(day), time, zone) !== wanted) wrong.push(`${zone} ${time}`);
      }
      expect(wrong).toEqual([]);
    }
  });

  it('knows every zone of the runtime and no other', () => {
    expect(Intl.supportedValuesOf('timeZone').every(isZone)).toBe(true);
    expect(isZone('Europe/Atlantis')).toBe(false);
    expect(() => offsetsOf('Europe/Atlantis')).toThrow(DomainError);
  });
});

describe('plan minutes', () => {
  const origin = '2026-11-02T00:00:00Z';

  it('are shown as the yard reads them', () => {
    expect(formatLocal(origin, 1440 + 450, 'Europe/London')).toBe('Tue 3 Nov 07:30');
    expect(formatLocal(origin, 0, 'America/New_York')).toBe('Sun 1 Nov 19:00');
  });

  it('have a local day and that day has a first minute', () => {
    expect(localDayOf(origin, 0, 'America/New_York')).toBe('2026-11-01');
    // 1 November 2026 has 25 hours in New York and began at 04:00 UTC.
    expect(minuteOfLocalDay(origin, '2026-11-01', 'America/New_York')).toBe(-20 * 60);
    expect(minuteOfLocalDay(origin, '2026-11-02', 'America/New_York')).toBe(5 * 60);
  });

  it('tick on a wall clock', () => {
    const wall = wallClock('Europe/London', '2026-10-25T00:30Z');
    expect([0, 30, 90].map((minute) => wall(minute).minuteOfDay)).toEqual([90, 60, 120]);
    expect(wall(0).weekday).toBe(7);
    expect(wallAt(instantOf('2026-10-25T00:30Z'), 'Europe/London')).toEqual(wall(0));
  });

  it('refuse an origin without an offset', () => {
    for (const bad of ['2026-11-02T00:00', '2026-11-02', 'now', '2026-11-02T00:00:30Z']) {
      expect(() => instantOf(bad)).toThrow(DomainError);
    }
  });
});
