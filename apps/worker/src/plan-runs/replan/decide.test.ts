import { describe, expect, it } from 'vitest';
import type { Difference } from '#live/difference/difference.ts';
import type { Plan, RankValues } from '#scheduling/model/plan.ts';
import { decide } from './decide.ts';

const planOf = (...values: RankValues): Plan => ({
  placements: [],
  branches: [],
  finishes: [],
  values,
});

function differs(moved: number, days: readonly number[] = [0]): Difference {
  const boats = days.map((day, k) => ({
    boatId: String(k),
    boat: String(k),
    refitId: String(k),
    refit: 'refit',
    promised: null,
    before: null,
    after: null,
    minutes: day * 1440,
    days: day,
    lateBefore: 0,
    lateAfter: 0,
  }));
  return { boats, tasks: [], people: [], windows: { lost: [], regained: [] }, moved, words: [] };
}

const found = (difference: Difference, plan = planOf(0, 1000, 0, 3)) => ({
  plan,
  tolerances: [0, 240, 0],
  difference,
});
const broken = { base: null, open: null, asked: false };
const standing = { ...broken, base: planOf(0, 1000, 0, 0) };

describe('a plan that was found for what happened', () => {
  it('is offered where the published one cannot be worked to, unless it moves nothing', () => {
    expect(decide(found(differs(3)), broken)).toEqual({ kind: 'offer' });
    expect(decide(found(differs(0)), broken)).toMatchObject({ kind: 'leave' });
  });

  it('is offered beside a published one that stands for a day gained, or where it was asked for', () => {
    expect(decide(found(differs(3)), standing)).toMatchObject({ kind: 'leave' });
    expect(decide(found(differs(3, [0, -1])), standing)).toEqual({ kind: 'offer' });
    expect(decide(found(differs(3, [1, -1])), standing)).toMatchObject({ kind: 'leave' });
    expect(decide(found(differs(3)), { ...standing, asked: true })).toEqual({ kind: 'offer' });
  });

  it('takes the place of a candidate that stands only if it is better, as the engine counts', () => {
    const open = { standing: planOf(0, 1000, 0, 5) };
    const moved = differs(3);
    expect(decide(found(moved, planOf(0, 1000, 0, 3)), { ...broken, open }).kind).toBe('offer');
    expect(decide(found(moved, planOf(0, 1000, 0, 5)), { ...broken, open }).kind).toBe('leave');
    // An hour later in all is within the tolerance of what fewer moves are worth.
    expect(decide(found(moved, planOf(0, 1060, 0, 3)), { ...broken, open }).kind).toBe('offer');
    expect(decide(found(moved, planOf(0, 1500, 0, 3)), { ...broken, open }).kind).toBe('leave');
    expect(decide(found(moved, planOf(60, 900, 0, 0)), { ...broken, open }).kind).toBe('leave');
  });

  it('takes the place of one that stands no more, or both go where the published one is as good', () => {
    const open = { standing: null };
    expect(decide(found(differs(3)), { ...broken, open })).toEqual({ kind: 'offer' });
    expect(decide(found(differs(0)), { ...standing, open })).toMatchObject({ kind: 'withdraw' });
  });
});
