import { describe, expect, it } from 'vitest';
import { smallYard } from '#planning/testing/small-yard.ts';
import { endOfWork, paceOf } from './pace.ts';

/** Ada alone, Mondays to Fridays 08:00 to 16:00 UTC; 2 November 2026 is a Monday. */
const sand = { skill: 'sanding', space: 'shop', splittable: true } as const;

describe('when a crew is through', () => {
  it('is in its hours, for work that can be put aside', () => {
    const end = endOfWork(smallYard(), sand);
    expect(end(['ada'], '2026-11-02T08:00:00.000Z', 90)).toBe('2026-11-02T09:30:00.000Z');
    expect(end(['ada'], '2026-11-02T15:00:00.000Z', 90)).toBe('2026-11-03T08:30:00.000Z');
    expect(end(['ada'], '2026-11-06T15:30:00.000Z', 60)).toBe('2026-11-09T08:30:00.000Z');
    expect(end(['ada'], '2026-11-02T08:00:00.000Z', 0)).toBe('2026-11-02T08:00:00.000Z');
  });

  it('is without a break for work in one piece', () => {
    const end = endOfWork(smallYard(), { ...sand, splittable: false });
    expect(end(['ada'], '2026-11-02T15:00:00.000Z', 90)).toBe('2026-11-02T16:30:00.000Z');
  });

  it('goes by what they can do, and by the space', () => {
    const yard = smallYard((draft) => {
      draft.people[0].abilities[1].speed = 150;
      draft.spaces[0].workPercent = 200;
    });
    expect(paceOf(yard, sand)(['ada'])).toBe(0.75);
    // 45 builder-minutes are an hour there.
    expect(endOfWork(yard, sand)(['ada'], '2026-11-02T08:00:00.000Z', 45)).toBe(
      '2026-11-02T09:00:00.000Z',
    );
  });

  it('is reckoned at the nominal rate for somebody the yard knows nothing of', () => {
    expect(paceOf(smallYard(), sand)(['nobody'])).toBe(1);
  });
});
