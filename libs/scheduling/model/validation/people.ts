import type { Builder, CrewDemand, Problem } from '../problem.ts';
import type { Report } from './report.ts';

export function builder(to: Report, path: string, one: Builder, problem: Problem): void {
  to.index(`${path}.calendar`, one.calendar, problem.calendars.length, 'calendar');
  to.whole(`${path}.cost`, one.cost, 0);
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
 * Of those able, the ones who may be asked: a learner needs somebody above in the skill (who is
 * then able to serve the demand as well), and so a crew of two at least.
 */
function askable(problem: Problem, crew: readonly CrewDemand[], demand: CrewDemand): number[] {
  const heads = crew.reduce((sum, { count }) => sum + count, 0);
  const levels = problem.builders.map(
    ({ abilities }) => abilities.find(({ skill }) => skill === demand.skill)?.level ?? -1,
  );
  return able(problem, demand).filter((b) => {
    const learns = problem.builders[b].abilities.some(
      ({ skill, needsSenior }) => skill === demand.skill && needsSenior,
    );
    return !learns || (heads > 1 && Math.max(...levels) > levels[b]);
  });
}

/**
 * How many places can be filled with different builders, given who may fill each: a largest
 * matching by augmenting paths (Kuhn 1955).
 */
function filled(places: readonly (readonly number[])[]): number {
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

/** One demand by itself: known, whole, and somebody may be asked unless it has happened. */
function demanded(
  to: Report,
  path: string,
  demand: CrewDemand,
  crew: readonly CrewDemand[],
  problem: Problem,
  happened: boolean,
): void {
  const known = to.index(`${path}.skill`, demand.skill, problem.skills.length, 'skill');
  to.whole(`${path}.minLevel`, demand.minLevel, 0);
  to.whole(`${path}.count`, demand.count, 1);
  if (!known || happened) return;
  const skill = problem.skills[demand.skill];
  if (able(problem, demand).length === 0)
    to.add('yard.skill', path, `Nobody has ${skill} at level ${demand.minLevel}`, demand);
  else if (askable(problem, crew, demand).length === 0)
    to.add(
      'yard.skill',
      path,
      `Only learners have ${skill} at level ${demand.minLevel}, and nobody of the crew can be above them`,
      demand,
      'Ask for a senior in the crew, or give the skill to somebody who needs none.',
    );
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
    demanded(to, `${path}[${i}]`, demand, demands, problem, happened);
  });
  // Frozen work is excused: it was done by whoever did it.
  if (happened || to.faults.length > before) return;
  const wanted = demands.reduce((sum, demand) => sum + demand.count, 0);
  const places = demands.flatMap((demand) => {
    const candidates = askable(problem, demands, demand);
    const count = Math.min(demand.count, problem.builders.length);
    return Array.from({ length: count }, () => candidates);
  });
  const found = filled(places);
  if (found < wanted)
    to.add(
      'yard.crew',
      path,
      `Only ${found} of ${wanted} places can be filled with different builders`,
      demands,
    );
}
