import { describe, expect, it } from 'vitest';
import { DomainError } from '#kernel/error.ts';
import { phoneMoment, type PhoneTimes, wholeMinutesLag } from './phone.ts';

const now = new Date('2026-12-01T10:00:30.500Z');
/** By the service's clock, so many minutes before `now`. */
const ago = (minutes: number): number => now.getTime() - minutes * 60_000;
/** What a phone shows at that moment whose clock is so many minutes ahead. */
const shown = (moment: number, ahead: number): string =>
  new Date(moment + ahead * 60_000).toISOString();

function refused(times: PhoneTimes): DomainError {
  try {
    phoneMoment(times, now);
  } catch (error) {
    if (error instanceof DomainError) return error;
  }
  throw new Error(`${JSON.stringify(times)} was taken`);
}

describe('when it really was', () => {
  it.each([
    ['right', 0],
    ['ten minutes ahead', 10],
    ['ten minutes behind', -10],
    ['set to another year', -56 * 365 * 24 * 60],
  ])('is found from a clock that is %s', (_which, ahead) => {
    const times = { at: shown(ago(45), ahead), sentAt: shown(ago(0), ahead) };
    expect(phoneMoment(times, now).getTime()).toBe(ago(45));
  });

  it('is now where nothing is said, whatever the phone shows', () => {
    expect(phoneMoment({}, now)).toEqual(now);
    expect(phoneMoment({ sentAt: shown(ago(0), 10) }, now)).toEqual(now);
  });

  it('is taken as it stands where the phone does not say when it sent', () => {
    expect(phoneMoment({ at: shown(ago(600), 0) }, now).getTime()).toBe(ago(600));
    expect(phoneMoment({ at: '2026-12-01T11:00:00+02:00' }, now).toISOString()).toBe(
      '2026-12-01T09:00:00.000Z',
    );
  });

  it('counts what the message was on its way, so that nothing comes out too early', () => {
    const times = { at: shown(ago(5), 0), sentAt: shown(ago(0.5), 0) };
    expect(phoneMoment(times, now).getTime()).toBe(ago(4.5));
  });

  it('keeps the order and the spans of what one phone did', () => {
    const sentAt = shown(ago(0), 10);
    const [begun, over] = [ago(90), ago(30)].map((moment) =>
      phoneMoment({ at: shown(moment, 10), sentAt }, now).getTime(),
    );
    expect(over - begun).toBe(60 * 60_000);
  });

  it('is now where two clocks differ by a minute at most', () => {
    expect(phoneMoment({ at: shown(ago(-1), 0) }, now)).toEqual(now);
    expect(phoneMoment({ at: shown(ago(-1), 10), sentAt: shown(ago(0), 10) }, now)).toEqual(now);
  });
});

describe('what has not been yet', () => {
  it('is refused of a clock ahead that is not said to be', () => {
    const at = shown(ago(0), 10);
    const { code, faults } = refused({ at });
    expect([code, faults.map(({ path, value }) => [path, value])]).toEqual([
      'input.field',
      [['at', at]],
    ]);
    expect(faults[0].cure).toContain('sentAt');
  });

  it('is refused where the phone had not come so far when it sent', () => {
    const times = { at: shown(ago(-2), -10), sentAt: shown(ago(0), -10) };
    const { faults } = refused(times);
    expect(faults.map(({ path, value }) => [path, value])).toEqual([['at', times.at]]);
    expect(faults[0].message).toContain(times.sentAt);
  });
});

describe('what is too long ago', () => {
  const year = 366 * 24 * 60;

  it('is refused of a clock that was reset, and right again when it sent', () => {
    const at = '1970-01-01T00:03:00Z';
    for (const times of [{ at }, { at, sentAt: shown(ago(0), 0) }]) {
      const { code, faults } = refused(times);
      expect([code, faults.map(({ path, value }) => [path, value])]).toEqual([
        'input.field',
        [['at', at]],
      ]);
    }
    expect(refused({ at: shown(ago(year + 1), 0) }).faults[0].cure).toContain('reset');
  });

  it('is not what was within a year, or seems longer ago by a clock that is off', () => {
    expect(phoneMoment({ at: shown(ago(year), 0) }, now).getTime()).toBe(ago(year));
    const reset = { at: '1970-01-01T00:03:00Z', sentAt: '1970-01-01T02:03:00Z' };
    expect(phoneMoment(reset, now).getTime()).toBe(ago(120));
  });
});

it('readings are moved by whole minutes, and into no future', () => {
  for (const ahead of [-10.3, -0.2, 0, 0.4, 10.7]) {
    const lag = wholeMinutesLag(shown(ago(0), ahead), now);
    expect(lag % 60_000).toBeCloseTo(0, 9);
    // The minute that the phone showed last.
    const minute = Math.floor((now.getTime() + ahead * 60_000) / 60_000) * 60_000;
    expect(minute + lag).toBeLessThanOrEqual(now.getTime());
    expect(minute + lag).toBeGreaterThan(now.getTime() - 120_000);
  }
  expect(wholeMinutesLag(undefined, now)).toBe(0);
});
