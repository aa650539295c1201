import { describe, expect, it } from 'vitest';
import type { Problem } from '../model/problem.ts';
import { activity, kinds, mode, placed, problem, work } from '../testing/make.ts';

describe('resources', () => {
  const kept = (keptWhilePaused: boolean): Problem =>
    problem({
      resources: [{ id: 'clamp', steps: [{ from: 0, capacity: 1 }], source: 'clamp' }],
      activities: [
        activity('A', [
          work(300, { splittable: true, demands: [{ resource: 0, amount: 1, keptWhilePaused }] }),
        ]),
        activity('B', [
          mode({ duration: 30, demands: [{ resource: 0, amount: 1, keptWhilePaused: false }] }),
        ]),
      ],
    });
  const sanding = placed(0, '480-720 750-810', [0]);
  it('are free in a pause unless kept', () => {
    expect(kinds(kept(false), [sanding, placed(1, '720-750')])).toEqual([]);
    expect(kinds(kept(false), [sanding, placed(1, '719-749')])).toEqual(['resource']);
    expect(kinds(kept(true), [sanding, placed(1, '720-750')])).toEqual(['resource']);
    expect(kinds(kept(true), [sanding, placed(1, '810-840')])).toEqual([]);
  });
  it('come and go by steps', () => {
    const steps = [
      { from: 0, capacity: 0 },
      { from: 100, capacity: 2 },
      { from: 200, capacity: 1 },
    ];
    const of = problem({
      resources: [{ id: 'stand', steps, source: 'stand' }],
      activities: [
        activity('A', [
          mode({ duration: 100, demands: [{ resource: 0, amount: 2, keptWhilePaused: false }] }),
        ]),
      ],
    });
    expect(kinds(of, [placed(0, '100-200')])).toEqual([]);
    expect(kinds(of, [placed(0, '99-199')])).toEqual(['resource']);
    expect(kinds(of, [placed(0, '101-201')])).toEqual(['resource']);
  });
});
