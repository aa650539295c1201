import type { Assignment } from '../../../model/plan.ts';
import type { CrewDemand, Mode, Problem } from '../../../model/problem.ts';

/** Builders who are alike in all that the problem says of them stand in for each other. */
export interface Classes {
  /** By builder. */
  readonly of: readonly number[];
  /** By class, its builders. */
  readonly members: readonly (readonly number[])[];
}

/** Builders that something names cannot be exchanged. */
function named({ activities, published }: Problem): Set<number> {
  return new Set([
    ...activities.flatMap(({ fixed }) => fixed?.builders ?? []),
    ...(published?.tasks.flatMap(({ builders }) => builders) ?? []),
  ]);
}

export function classesOf(problem: Problem): Classes {
  const apart = named(problem);
  // Whose hours have pauses can be in two pieces of paused work at a time, which counting does not see.
  const pausing = problem.activities.some(({ modes }) =>
    modes.some(({ splittable, crew }) => splittable && crew.length > 0),
  );
  const known = new Map<string, number>();
  const members: number[][] = [];
  const of = problem.builders.map(({ abilities, calendar, cost, unlimited }, b) => {
    const alone = pausing || apart.has(b) || unlimited;
    const key = JSON.stringify([alone ? b : -1, abilities, calendar, cost]);
    const number = known.get(key) ?? members.length;
    known.set(key, number);
    if (number === members.length) members.push([]);
    members[number].push(b);
    return number;
  });
  return { of, members };
}

/** Who may serve a demand, with how much of it they do in a minute. */
export interface Able {
  readonly builder: number;
  readonly speed: number;
  readonly level: number;
  readonly needsSenior: boolean;
}

export const ableFor = (
  { builders }: Problem,
  { skill, minLevel }: CrewDemand,
  wanted: readonly number[] | null,
): Able[] =>
  builders.flatMap(({ abilities }, builder) => {
    const own = abilities.find((one) => one.skill === skill && one.level >= minLevel);
    if (own === undefined || (wanted !== null && !wanted.includes(builder))) return [];
    return [{ builder, speed: own.speed, level: own.level, needsSenior: own.needsSenior }];
  });

export interface Crew {
  readonly members: readonly Assignment[];
  readonly speed: number;
}

function taught({ builders }: Problem, mode: Mode, members: readonly Assignment[]): boolean {
  return members.every(({ builder, demand }) => {
    const { skill } = mode.crew[demand];
    const own = builders[builder].abilities.find((one) => one.skill === skill);
    if (own?.needsSenior !== true) return true;
    return members.some(
      (other) =>
        other.builder !== builder &&
        builders[other.builder].abilities.some(
          (one) => one.skill === skill && one.level > own.level,
        ),
    );
  });
}

/** No fewer ways to fill the demands than there are. */
export function countOf(able: readonly (readonly Able[])[], mode: Mode): number {
  let total = 1;
  mode.crew.forEach(({ count }, d) => {
    for (let k = 0; k < count; k += 1) total *= Math.max(0, able[d].length - k) / (k + 1);
  });
  return total;
}

/**
 * Every crew of a mode, of those that differ only in who of a class serves, or in who serves
 * which demand at the same speed, the first. `wanted`: exactly these builders.
 */
export function crewsOf(
  problem: Problem,
  mode: Mode,
  able: readonly (readonly Able[])[],
  classes: Classes,
  wanted: readonly number[] | null,
): Crew[] {
  const heads = mode.crew.reduce((sum, { count }) => sum + count, 0);
  if (wanted !== null && wanted.length !== heads) return [];
  const found = new Map<string, Crew>();
  const members: Assignment[] = [];
  const extend = (demand: number, left: number, from: number, speed: number): void => {
    if (left === 0) {
      if (demand + 1 < mode.crew.length) {
        extend(demand + 1, mode.crew[demand + 1].count, 0, speed);
        return;
      }
      if (!taught(problem, mode, members)) return;
      const people = members.map(({ builder }) => classes.of[builder]).sort((a, b) => a - b);
      const key = `${people.join(',')}/${String(speed)}`;
      if (!found.has(key)) found.set(key, { members: [...members], speed });
      return;
    }
    for (let i = from; i < able[demand].length; i += 1) {
      const one = able[demand][i];
      if (members.some(({ builder }) => builder === one.builder)) continue;
      members.push({ builder: one.builder, demand });
      extend(demand, left - 1, i + 1, speed + one.speed);
      members.pop();
    }
  };
  if (mode.crew.length > 0) extend(0, mode.crew[0].count, 0, 0);
  return [...found.values()];
}
