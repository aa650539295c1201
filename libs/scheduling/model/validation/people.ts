import type { Builder, CrewDemand, Problem } from '../problem.ts';
import type { Report } from './report.ts';

export function builder(to: Report, path: string, one: Builder, problem: Problem): void {
  to.index(`${path}.calendar`, one.calendar, problem.calendars.length, 'calendar');
  one.abilities.forEach((ability, i) => {
    const own = `${path}.abilities[${i}]`;
    to.index(`${own}.skill`, ability.skill, problem.skills.length, 'skill');
    to.whole(`${own}.level`, ability.level, 0);
    to.whole(`${own}.speed`, ability.speed, 1);
    if (one.abilities.slice(0, i).some((earlier) => earlier.skill === ability.skill))
      to.add('yard.duplicate', `${own}.skill`, 'The skill is given twice', ability.skill);
  });
}

/** The builders who have the skill of a demand at its level. */
export const able = (problem: Problem, { skill, minLevel }: CrewDemand): number[] =>
  problem.builders.flatMap(({ abilities }, b) =>
    abilities.some((one) => one.skill === skill && one.level >= minLevel) ? [b] : [],
  );

/**
 * How many places of the demands can be filled with different builders: a largest
 * matching by augmenting paths (Kuhn 1955).
 */
function filled(problem: Problem, crew: readonly CrewDemand[]): number {
  const places = crew.flatMap((demand) => {
    const candidates = able(problem, demand);
    return Array.from(
      { length: Math.min(demand.count, problem.builders.length) },
      () => candidates,
    );
  });
  const placeOf = new Map<number, number>();
  const place = (index: number, tried: Set<number>): boolean =>
    places[index].some((b) => {
      if (tried.has(b)) return false;
      tried.add(b);
      const other = placeOf.get(b);
      if (other !== undefined && !place(other, tried)) return false;
      placeOf.set(b, index);
      return true;
    });
  return places.filter((_, index) => place(index, new Set())).length;
}

/** The crew of a mode: known skills, positive counts and, unless it has happened, enough different people. */
export function crew(
  to: Report,
  path: string,
  demands: readonly CrewDemand[],
  problem: Problem,
  happened: boolean,
): void {
  const before = to.faults.length;
  demands.forEach((demand, i) => {
    const own = `${path}[${i}]`;
    const known = to.index(`${own}.skill`, demand.skill, problem.skills.length, 'skill');
    to.whole(`${own}.minLevel`, demand.minLevel, 0);
    to.whole(`${own}.count`, demand.count, 1);
    if (known && !happened && able(problem, demand).length === 0)
      to.add(
        'yard.skill',
        own,
        `Nobody has ${problem.skills[demand.skill]} at level ${demand.minLevel}`,
        demand,
      );
  });
  // Frozen work is excused: it was done by whoever did it.
  if (happened || to.faults.length > before) return;
  const wanted = demands.reduce((sum, demand) => sum + demand.count, 0);
  const found = filled(problem, demands);
  if (found < wanted)
    to.add(
      'yard.crew',
      path,
      `Only ${found} of ${wanted} places can be filled with different builders`,
      demands,
    );
}
