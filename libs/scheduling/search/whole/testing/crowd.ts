import type { Plan } from '../../../model/plan.ts';
import type { Builder, Problem } from '../../../model/problem.ts';
import { activity, builder, mode, placed, plan, problem, work } from '../../../testing/make.ts';

/** Twelve builders of skill 0, of whom three make 220 crews: too many to be listed. */
export const crowd = (each: (b: number) => Partial<Builder>, given: Partial<Problem>): Problem =>
  problem({
    builders: Array.from({ length: 12 }, (_, b) => builder(`builder-${String(b)}`, each(b))),
    refits: [{ id: 'boat', release: 0, due: null, handovers: [], weight: 1, source: 'boat' }],
    ...given,
  });

/** The later ones are quicker and dearer. */
const unlike = (b: number): Partial<Builder> => ({
  cost: b + 1,
  abilities: [{ skill: 0, level: 1, speed: 100 + b, needsSenior: false }],
});

const three = [{ skill: 0, minLevel: 1, count: 3 }];

interface Planned {
  readonly problem: Problem;
  readonly plan: Plan;
}

/** Paused work that takes the slowest three 595 minutes, and two short works on the same part. */
export const slow: Planned = (() => {
  const onPart = { parts: [0] };
  const of = crowd(unlike, {
    spaces: [{ id: 'shed', dustReaches: [], settling: 0, source: 'shed' }],
    parts: [{ id: 'deck', space: 0, source: 'deck' }],
    activities: [
      activity('A', [mode({ work: 180_000, splittable: true, crew: three })], onPart),
      activity('B', [work(30)], onPart),
      activity('C', [work(30)], onPart),
    ],
  });
  const placements = [
    placed(0, '480-720 750-960 1920-2065', [0, 1, 2]),
    placed(1, '2065-2095', [0]),
    placed(2, '2095-2125', [0]),
  ];
  return { problem: of, plan: plan(of, placements) };
})();

/** Work that was set for the hundred minutes which it takes the slowest three. */
export const tight: Planned = (() => {
  const fixed = { kind: 'set', start: 480, finish: 580, builders: null } as const;
  const activities = [activity('A', [mode({ work: 30_000, crew: three })], { fixed })];
  const of = crowd(unlike, { activities });
  return { problem: of, plan: plan(of, [placed(0, '480-580', [0, 1, 2])]) };
})();
