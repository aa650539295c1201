import type { Ability, Builder, Mode, Problem } from '#scheduling/model/problem.ts';
import type { Assignment } from '#scheduling/model/plan.ts';

/** People who may do a mode together, and how long they take. */
export interface Crew {
  readonly members: readonly Assignment[];
  readonly minutes: number;
}

const abilityOf = (builder: Builder, skill: number): Ability | undefined =>
  builder.abilities.find((one) => one.skill === skill);

/** A learner serves beside another of the crew who has the skill at a higher level. */
function supervised(problem: Problem, mode: Mode, members: readonly Assignment[]): boolean {
  return members.every(({ builder, demand }) => {
    const { skill } = mode.crew[demand];
    const own = abilityOf(problem.builders[builder], skill);
    if (own?.needsSenior !== true) return true;
    return members.some((other) => {
      const ability = abilityOf(problem.builders[other.builder], skill);
      return other.builder !== builder && ability !== undefined && ability.level > own.level;
    });
  });
}

/** Every way to fill the places of the demands from `demand` on with builders of `free`. */
function fillings(
  problem: Problem,
  mode: Mode,
  demand: number,
  free: readonly number[],
): readonly Assignment[][] {
  if (demand === mode.crew.length) return [[]];
  const { skill, minLevel, count } = mode.crew[demand];
  const able = free.filter((b) => (abilityOf(problem.builders[b], skill)?.level ?? -1) >= minLevel);
  return groups(able, count).flatMap((group) =>
    fillings(
      problem,
      mode,
      demand + 1,
      free.filter((b) => !group.includes(b)),
    ).map((rest) => [...group.map((builder) => ({ builder, demand })), ...rest]),
  );
}

/** All groups of so many. */
function groups(all: readonly number[], size: number): number[][] {
  if (size === 0) return [[]];
  return all.flatMap((first, k) =>
    groups(all.slice(k + 1), size - 1).map((rest) => [first, ...rest]),
  );
}

/** Different people, or the same people in another time: who of them serves what can decide it. */
export function crewsOf(problem: Problem, mode: Mode): readonly Crew[] {
  if (mode.crew.length === 0) return [{ members: [], minutes: mode.duration }];
  const everybody = problem.builders.map((_, b) => b);
  const found = new Map<string, Crew>();
  for (const members of fillings(problem, mode, 0, everybody)) {
    if (!supervised(problem, mode, members)) continue;
    const speed = members.reduce(
      (sum, { builder, demand }) =>
        sum + (abilityOf(problem.builders[builder], mode.crew[demand].skill)?.speed ?? 0),
      0,
    );
    const minutes = Math.max(mode.floor, Math.ceil(mode.work / speed));
    const names = members.map(({ builder }) => builder).sort((a, b) => a - b);
    found.set(`${names.join(' ')} in ${minutes}`, { members, minutes });
  }
  return [...found.values()];
}
