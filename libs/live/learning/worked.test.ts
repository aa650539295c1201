import { expect, it } from 'vitest';
import { instantOf } from '#calendar/local-time.ts';
import { presenceOf, workedMinutes } from './worked.ts';

/** 08:00 to 17:00 with lunch from 12:00, Monday to Friday in London; 2 November 2026 is a Monday. */
const shifts = [1, 2, 3, 4, 5].map((weekday) => ({
  weekday,
  from: '08:00',
  to: '17:00',
  breaks: [{ from: '12:00', to: '12:30' }],
}));
const week = { start: instantOf('2026-11-01T00:00Z'), end: instantOf('2026-11-11T00:00Z') };
const presence = presenceOf({ shifts, exceptions: [] }, 'Europe/London', week);

const worked = (from: string, to: string, observesBreaks = true): number =>
  workedMinutes(
    { start: instantOf(`2026-11-${from}Z`), end: instantOf(`2026-11-${to}Z`) },
    presence,
    observesBreaks,
  );

it('counts time within a shift as it is', () => {
  expect(worked('02T09:00', '02T10:30')).toBe(90);
});

it('leaves out a break and a night that lie inside, where the work observes them', () => {
  expect(worked('02T11:00', '02T14:00')).toBe(150);
  expect(worked('02T11:00', '02T14:00', false)).toBe(180);
  expect(worked('02T16:00', '03T09:00')).toBe(120);
  // Both nights, both lunches, and the weekend.
  expect(worked('05T16:00', '09T09:00')).toBe(60 + 510 + 60);
});

it('counts what reaches beyond a shift: they came earlier, or stayed', () => {
  expect(worked('02T07:00', '02T09:00')).toBe(120);
  expect(worked('02T16:00', '02T19:00')).toBe(180);
  expect(worked('02T11:30', '02T12:20')).toBe(50);
  expect(worked('07T10:00', '07T12:00')).toBe(120);
});

it('goes by the shifts of a date that differs', () => {
  const off = { date: '2026-11-03', shifts: [], reason: 'ill' };
  const ill = presenceOf({ shifts, exceptions: [off] }, 'Europe/London', week);
  const span = { start: instantOf('2026-11-02T16:00Z'), end: instantOf('2026-11-04T09:00Z') };
  expect(workedMinutes(span, ill, true)).toBe(120);
});
