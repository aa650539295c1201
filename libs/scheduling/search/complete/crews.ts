import type { Assignment } from '../../model/plan.ts';
import type { Mode, Problem } from '../../model/problem.ts';

/** Who does the work, and how much of it they do in a minute. */
export interface Crew {
  readonly members: readonly Assignment[];
  readonly speed: number;
}

/** A learner is beside somebody of the crew who has the skill at a higher level. */
function supervised(problem: Problem, mode: Mode, members: readonly Assignment[]): boolean {
  return members.every(({ builder, demand }) => {
    const { skill } = mode.crew[demand];
    const own = problem.builders[builder].abilities.find((ability) => ability.skill === skill);
    if (own?.needsSenior !== true) return true;
    return members.some(
      (other) =>
        other.builder !== builder &&
        problem.builders[other.builder].abilities.some(
          (ability) => ability.skill === skill && ability.level > own.level,
        ),
    );
  });
}

/**
 * Every crew of a mode that is given by people, of exactly `wanted` where that is set. Of several
 * ways to share out the demands among the same people, one of each speed is enough: nothing else
 * tells them apart.
 */
export function crewsOf(problem: Problem, mode: Mode, wanted: readonly number[] | null): Crew[] {
  const heads = mode.crew.reduce((sum, { count }) => sum + count, 0);
  if (wanted !== null && wanted.length !== heads) return [];
  const able = mode.crew.map(({ skill, minLevel }) =>
    problem.builders.flatMap(({ abilities }, builder) => {
      const ability = abilities.find((one) => one.skill === skill && one.level >= minLevel);
      const allowed = wanted === null || wanted.includes(builder);
      return ability && allowed ? [{ builder, speed: ability.speed }] : [];
    }),
  );
  const found = new Map<string, Crew>();
  const extend = (demand: number, left: number, from: number, crew: Crew): void => {
    if (left === 0) {
      if (demand + 1 < mode.crew.length) {
        extend(demand + 1, mode.crew[demand + 1].count, 0, crew);
        return;
      }
      if (!supervised(problem, mode, crew.members)) return;
      const people = crew.members.map(({ builder }) => builder).sort((a, b) => a - b);
      const key = `${people.join(',')}/${String(crew.speed)}`;
      if (!found.has(key)) found.set(key, crew);
      return;
    }
    for (let i = from; i < able[demand].length; i += 1) {
      const { builder, speed } = able[demand][i];
      if (crew.members.some((one) => one.builder === builder)) continue;
      extend(demand, left - 1, i + 1, {
        members: [...crew.members, { builder, demand }],
        speed: crew.speed + speed,
      });
    }
  };
  if (mode.crew.length > 0) extend(0, mode.crew[0].count, 0, { members: [], speed: 0 });
  return [...found.values()];
}
