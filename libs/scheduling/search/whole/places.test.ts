import { describe, expect, it } from 'vitest';
import type { Problem } from '../../model/problem.ts';
import { activity, lag, mode, work } from '../../testing/make.ts';
import { best, hour, starts } from './testing/hour.ts';

describe('supply', () => {
  it('keeps a mould until the part is out of it', () => {
    // One mould. A takes it 0-5 and holds it until C, which starts 10 after A has finished at the
    // earliest, has started. B, 5 minutes, also holds it: it comes after C has started, or before A.
    // A first: C 15-16, B 15-20, boat at 20. B first: B 0-5, A 5-10, C 20-21: 21.
    const of = hour({
      resources: [
        { id: 'mould', steps: [{ from: 0, capacity: 1 }], calendar: null, source: 'mould' },
      ],
      activities: [
        activity('A', [mode({ duration: 5 })]),
        activity('B', [mode({ duration: 5 })]),
        activity('C', [mode({ duration: 1 })]),
      ],
      lags: [lag(0, 2, 10)],
      holds: [
        {
          id: 'a',
          activity: 0,
          resource: 0,
          amount: 1,
          ends: [{ kind: 'activity', activity: 2, anchor: 'start' }],
          source: 'a',
        },
        {
          id: 'b',
          activity: 1,
          resource: 0,
          amount: 1,
          ends: [{ kind: 'lag', fns: [{ kind: 'constant', minutes: 0 }] }],
          source: 'b',
        },
      ],
    });
    expect(best(of)).toEqual([0, 20, 0, 0]);
    expect(starts(of)).toEqual([0, 15, 15]);
  });

  it('takes the slower way where the resin does not last', () => {
    // Two jobs: 4 minutes with 3 of resin, or 9 with 1. Of 4 in all, one may be fast: at the same
    // time they end at 9. Of 1 there is no plan.
    const ways = [
      mode({ duration: 4, consumes: [{ stock: 0, amount: 3 }] }),
      mode({ duration: 9, consumes: [{ stock: 0, amount: 1 }] }),
    ];
    const of = (total: number): Problem =>
      hour({
        stocks: [{ id: 'resin', total, source: 'resin' }],
        activities: [activity('A', ways), activity('B', ways)],
      });
    expect([6, 5, 4, 2, 1].map((total) => best(of(total)))).toEqual([
      [0, 4, 0, 0],
      [0, 9, 0, 0],
      [0, 9, 0, 0],
      [0, 9, 0, 0],
      'infeasible',
    ]);
  });

  it('books a slot once for all who use it, and none too late', () => {
    // Crane at 5-10 for 7, at 20-30 for 2; the first had to be booked by 3, and it is 4. Both lifts
    // of 4 minutes share the second: 20-24, 24-28 by Ada alone, who costs nothing. Asked at 3 the
    // first holds one of them only, so that the other is at 20-24 and both are paid.
    const of = (now: number): Problem =>
      hour({
        now,
        slotLists: [
          {
            id: 'crane',
            slots: [
              { start: 5, end: 10, cost: 7, bookBy: 3 },
              { start: 20, end: 30, cost: 2, bookBy: 9 },
            ],
            source: 'crane',
          },
        ],
        activities: [
          activity('A', [work(4, { slots: 0 })]),
          activity('B', [work(4, { slots: 0 })]),
        ],
      });
    expect(best(of(4))).toEqual([0, 28, 2, 0]);
    expect(best(of(3))).toEqual([0, 24, 9, 0]);
  });
});

describe('places', () => {
  const space = (id: string, reaches: Problem['spaces'][0]['dustReaches']) => ({
    id,
    dustReaches: reaches,
    settling: 3,
    source: id,
  });

  it('finds a part where it was carried', () => {
    // The hatch is in bay 0. Sanding it in bay 1, 5 minutes, comes after carrying it there, which
    // takes 2 and may begin when the glue, 0-4 in bay 0, has been left alone for 6: 10-12, 12-17.
    const of = hour({
      spaces: [space('bay', []), space('hull', [])],
      parts: [{ id: 'hatch', space: 0, source: 'hatch' }],
      activities: [
        activity('sand', [mode({ duration: 5, space: 1 })], { parts: [0] }),
        activity('glue', [mode({ duration: 4, space: 0 })], { parts: [0] }),
        activity('carry', [mode({ duration: 2, movesTo: 1 })], { parts: [0] }),
      ],
      lags: [lag(1, 2, 6, { kind: 'handle' })],
    });
    expect(best(of)).toEqual([0, 17, 0, 0]);
    const stays = { ...of, activities: of.activities.slice(0, 2), lags: [] };
    expect(best(stays)).toBe('infeasible');
  });

  it('shuts a door where that is quicker than waiting for the dust', () => {
    // Sanding in bay 0 takes 10 and settles for 3; its dust reaches bay 1, where a coat of 4 is
    // open for 5 more. Without the door the coat comes after the dust, 13-17, or before it: coat
    // 0-4, safe at 9, sanding 9-19. Shutting the door takes 2: it is shut 0-2 while the sanding
    // goes on, 0-10, and the coat is laid behind it, 2-6.
    const activities = [
      activity('sand', [mode({ duration: 10, space: 0, air: 'dusty' })]),
      activity('coat', [mode({ duration: 4, space: 1, air: 'wet' })]),
    ];
    const shut = activity('shut', [mode({ duration: 2, barrier: { barrier: 0, closes: true } })]);
    const of = hour({
      spaces: [space('bay', [{ space: 1, barrier: 0 }]), space('room', [])],
      barriers: [{ id: 'door', closed: false, source: 'door' }],
      activities: [...activities, shut],
      surfaces: [
        {
          id: 'film',
          activity: 1,
          until: [{ kind: 'constant', minutes: 5 }],
          coveredBy: [],
          source: 'film',
        },
      ],
      choices: [
        {
          id: 'door',
          branches: [
            { id: 'leave', activities: [], lags: [] },
            { id: 'shut', activities: [2], lags: [] },
          ],
          source: 'door',
        },
      ],
    });
    expect(best(of)).toEqual([0, 10, 0, 0]);
    const left = { ...of, activities, choices: [] };
    expect(best(left)).toEqual([0, 17, 0, 0]);
  });

  it('covers a surface early where dust is waiting', () => {
    // The film of A, 0-2, stays open until it is covered by B, which may come 8 after A at the
    // earliest. Dust in the same space for 5 minutes, settling 3: after A has been covered, 10-15,
    // or before it, 0-5 with A from 8: A 8-10, B 18-19. The first ends at 15.
    const of = hour({
      spaces: [space('bay', [{ space: 0, barrier: null }])],
      activities: [
        activity('A', [mode({ duration: 2, space: 0 })]),
        activity('B', [mode({ duration: 1, space: 0 })]),
        activity('dust', [mode({ duration: 5, space: 0, air: 'dusty' })]),
      ],
      lags: [lag(0, 1, 8)],
      surfaces: [
        {
          id: 'film',
          activity: 0,
          until: [{ kind: 'constant', minutes: 40 }],
          coveredBy: [1],
          source: 'film',
        },
      ],
    });
    expect(best(of)).toEqual([0, 15, 0, 0]);
    expect(starts(of)).toEqual([0, 10, 10]);
  });
});
