import { describe, expect, it } from 'vitest';
import { closenessOf } from './closeness.ts';
import { hoursOf, shownUntil, workedHours } from './hours.ts';
import { moment, small, task } from './small-picture.ts';

/** Two days of nine hours, 15 px an hour where there is room for no more. */
const drawn = (minutes: readonly number[]) => {
  const until = (length: number): string => new Date(start + length * 60_000).toISOString();
  const start = Date.parse(moment('08:00'));
  const model = small(
    minutes.map((length, k) => {
      const one = task({ id: `task-${String(k)}`, at: [['08:00', '09:00']] });
      const segments = [{ from: moment('08:00'), until: until(length) }];
      return { ...one, segments, finish: until(length) };
    }),
  );
  const hours = hoursOf(workedHours(model.picture, model.whole), model.whole, { room: 100 });
  return { model, hours, closer: closenessOf(model.works, model.whole, hours) };
};

describe('how near a week opens', () => {
  it('is the whole where half of the planks have room for a word, and nearer where not', () => {
    expect(drawn([180, 180, 180]).closer).toBe(1);
    expect(drawn([10, 90, 180]).closer).toBe(2);
    expect(drawn([5, 5, 5]).closer).toBe(2);
  });

  it('is the whole of a week in which nothing is done', () => {
    expect(drawn([]).closer).toBe(1);
  });
});

describe('what takes room', () => {
  it('is at least what can be hit, and no more than is worked on', () => {
    const { hours } = drawn([]);
    const [from, until] = [Date.parse(moment('08:00')), Date.parse(moment('08:10'))];
    const shown = shownUntil(hours, { from, until }, 24);
    expect(hours.at(shown) - hours.at(from)).toBeCloseTo(24);
    const long = Date.parse(moment('15:00'));
    expect(shownUntil(hours, { from, until: long }, 24)).toBe(long);
  });
});
