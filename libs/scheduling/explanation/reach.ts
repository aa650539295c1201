import type { Activity, Mode, Problem } from '../model/problem.ts';

/** Where the dust and the open surfaces of a plan may be, whenever its work is done: lists of indices. */
export interface Reach {
  /** By space: activities whose dust comes there, wet work, and surfaces that may be open there. */
  readonly dusty: readonly (readonly number[])[];
  readonly wet: readonly (readonly number[])[];
  readonly open: readonly (readonly number[])[];
  /** By activity: surfaces that it leaves, and that it covers. */
  readonly left: readonly (readonly number[])[];
  readonly covered: readonly (readonly number[])[];
  /** By part: surfaces that it carries. */
  readonly onPart: readonly (readonly number[])[];
  /** By barrier: activities whose dust goes through it. */
  readonly through: readonly (readonly number[])[];
}

const lists = (of: readonly unknown[]): number[][] => of.map(() => []);

/** A placed activity, in its mode. */
interface Placed {
  readonly activity: Activity;
  readonly mode: Mode;
}

export function reachOf(problem: Problem, at: readonly (Placed | undefined)[]): Reach {
  const { spaces, surfaces, activities, parts, barriers } = problem;
  const dusty = lists(spaces);
  const wet = lists(spaces);
  const open = lists(spaces);
  const left = lists(activities);
  const covered = lists(activities);
  const onPart = lists(parts);
  const through = lists(barriers);
  const goals = parts.map(() => new Set<number>());
  at.forEach((one, a) => {
    if (!one) return;
    const { air, space, movesTo } = one.mode;
    if (movesTo !== null) for (const part of one.activity.parts) goals[part].add(movesTo);
    if (space === null) return;
    if (air === 'wet') wet[space].push(a);
    if (air !== 'dusty') return;
    for (const to of spaces[space].dustReaches) {
      if (dusty[to.space].at(-1) !== a) dusty[to.space].push(a);
      if (to.barrier !== null) through[to.barrier].push(a);
    }
  });
  surfaces.forEach(({ activity, coveredBy }, s) => {
    for (const cover of new Set(coveredBy)) covered[cover].push(s);
    left[activity].push(s);
    const owner = at[activity];
    if (!owner) return;
    const [first] = owner.activity.parts;
    const where = new Set(owner.mode.space === null ? [] : [owner.mode.space]);
    if (owner.activity.parts.length > 0) {
      onPart[first].push(s);
      for (const goal of goals[first]) where.add(goal);
    }
    for (const space of where) open[space].push(s);
  });
  return { dusty, wet, open, left, covered, onPart, through };
}
