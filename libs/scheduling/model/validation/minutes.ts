import type { Activity, Mode, Problem } from '../problem.ts';
import { able } from './people.ts';

/** Minutes of work that a mode takes at the very least: its demands served by the fastest who can. */
export function least(problem: Problem, mode: Mode): number {
  if (mode.crew.length === 0) return mode.duration;
  let speed = 0;
  for (const demand of mode.crew) {
    const speeds = able(problem, demand)
      .map(
        (b) => problem.builders[b].abilities.find((one) => one.skill === demand.skill)?.speed ?? 0,
      )
      .sort((a, b) => b - a);
    for (const one of speeds.slice(0, demand.count)) speed += one;
  }
  return speed > 0 ? Math.max(mode.floor, Math.ceil(mode.work / speed)) : mode.floor;
}

/** Whether nobody's hours can make it longer than its duration. */
const steady = (problem: Problem, { crew, splittable, demands }: Mode): boolean =>
  crew.length === 0 &&
  !(splittable && demands.some(({ resource }) => problem.resources[resource].calendar !== null));

/** From start to finish, in any of the modes. */
export function spanOf(
  problem: Problem,
  { fixed, modes }: Activity,
): { shortest: number; longest: number } {
  if (fixed?.kind === 'frozen' && fixed.start !== null && fixed.finish !== null) {
    const minutes = fixed.finish - fixed.start;
    return { shortest: minutes, longest: minutes };
  }
  return {
    shortest: Math.min(...modes.map((mode) => least(problem, mode))),
    longest: modes.every((mode) => steady(problem, mode))
      ? Math.max(...modes.map((mode) => mode.duration))
      : Infinity,
  };
}
