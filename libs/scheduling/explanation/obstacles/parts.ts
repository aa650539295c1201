import type { Obstacle } from '../../model/plan.ts';
import { meets, those, type Located, type LocatedPlan } from '../located.ts';
import type { Rule } from './obstacle.ts';

const on = (located: LocatedPlan, part: number): Located[] =>
  those(located, located.sharing.parts[part]);

/** Activities that move a part, in order. */
export const moves = (located: LocatedPlan, part: number): Located[] =>
  on(located, part)
    .filter(({ mode }) => mode.movesTo !== null)
    .sort((x, y) => x.shape.end - y.shape.end || x.shape.start - y.shape.start);

const lasts = ({ shape }: Located): boolean => shape.start < shape.end;

/** Others at work on one of its parts, and parts that would be somewhere else, its own or another's. */
export const parts: Rule = (located, one) => {
  const found: Obstacle[] = [];
  const { activity: a, start: planned } = one.placement;
  for (const part of one.activity.parts) {
    const reason = { kind: 'part', part } as const;
    for (const other of on(located, part))
      if (
        other.placement.activity !== a &&
        lasts(one) &&
        lasts(other) &&
        meets(one.shape, other.shape)
      )
        found.push({ from: other.placement.activity, reason, until: other.shape.end });
    const moved = moves(located, part);
    for (const user of on(located, part)) {
      if (user.frozen || user.mode.space === null) continue;
      const last = moved.findLast(({ shape }) => shape.end <= user.shape.start);
      if ((last?.mode.movesTo ?? located.problem.parts[part].space) === user.mode.space) continue;
      if (user.placement.activity !== a) {
        found.push({ from: user.placement.activity, reason, until: planned });
        continue;
      }
      const arrival = moved.find(
        ({ shape, mode }) => mode.movesTo === user.mode.space && shape.end > user.shape.start,
      );
      found.push({
        from: arrival?.placement.activity ?? null,
        reason,
        until: arrival?.shape.end ?? planned,
      });
    }
  }
  return found;
};

/** Other acts on the same barrier. */
export const barriers: Rule = ({ at }, one) => {
  const act = one.mode.barrier;
  if (act === null || !lasts(one)) return [];
  return at.flatMap((other): Obstacle[] => {
    if (!other || other.placement.activity === one.placement.activity) return [];
    if (other.mode.barrier?.barrier !== act.barrier || !lasts(other)) return [];
    if (!meets(one.shape, other.shape)) return [];
    const reason = { kind: 'barrier', barrier: act.barrier } as const;
    return [{ from: other.placement.activity, reason, until: other.shape.end }];
  });
};
