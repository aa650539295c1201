import type { Interval } from '../model/problem.ts';
import { taken, type Reading, type Work } from './reading.ts';
import type { Violation } from './violation.ts';

/** Each demand served by its count of builders who have the skill at the level, nobody counted twice. */
function demands({ problem }: Reading, { placement, activity, mode }: Work): Violation[] {
  const found: Violation[] = [];
  const complain = (kind: Violation['kind'], message: string): void => {
    const constraint = { kind: 'crew', activity: placement.activity } as const;
    found.push({ kind, activities: [placement.activity], constraint, message });
  };
  mode.crew.forEach((demand, d) => {
    const skill = problem.skills[demand.skill];
    const serving = placement.crew.filter((member) => member.demand === d);
    if (serving.length !== demand.count)
      complain(
        'crew-count',
        `${activity.id} has ${serving.length} of ${demand.count} for ${skill}`,
      );
    for (const { builder } of serving) {
      const { id, abilities } = problem.builders[builder];
      const able = abilities.some(
        (ability) => ability.skill === demand.skill && ability.level >= demand.minLevel,
      );
      if (!able)
        complain(
          'crew-skill',
          `${id} does not have ${skill} at level ${demand.minLevel} for ${activity.id}`,
        );
    }
  });
  placement.crew.forEach(({ builder, demand }, i) => {
    const { id } = problem.builders[builder];
    if (!(demand in mode.crew)) complain('crew-count', `${id} serves no demand of ${activity.id}`);
    if (placement.crew.findIndex((member) => member.builder === builder) < i)
      complain('crew-twice', `${id} is counted twice on ${activity.id}`);
  });
  return found;
}

/** Beside each learner somebody else, serving any demand, who has the learner's skill at a higher level. */
function seniors({ problem }: Reading, { placement, activity, mode }: Work): Violation[] {
  return placement.crew.flatMap(({ builder, demand }): Violation[] => {
    const { id, abilities } = problem.builders[builder];
    const skill = mode.crew[demand]?.skill;
    const own = abilities.find((ability) => ability.skill === skill);
    if (!own?.needsSenior) return [];
    const beside = placement.crew.some(
      (other) =>
        other.builder !== builder &&
        problem.builders[other.builder].abilities.some(
          (ability) => ability.skill === own.skill && ability.level > own.level,
        ),
    );
    if (beside) return [];
    return [
      {
        kind: 'senior',
        activities: [placement.activity],
        constraint: { kind: 'crew', activity: placement.activity },
        message: `${id} learns ${problem.skills[own.skill]} and has nobody above level ${own.level} beside on ${activity.id}`,
      },
    ];
  });
}

interface Stay extends Interval {
  readonly activity: number;
}

/** One builder's stays in order; two that overlap. */
function collisions(stays: readonly Stay[]): [Stay, Stay][] {
  const sorted = stays.toSorted((a, b) => a.start - b.start || a.end - b.end);
  const found: [Stay, Stay][] = [];
  let latest: Stay | null = null;
  for (const stay of sorted) {
    if (latest && stay.start < latest.end) found.push([latest, stay]);
    if (!latest || stay.end > latest.end) latest = stay;
  }
  return found;
}

/** Nobody in two places at once, clean-down included; frozen work occupies its people too. */
function twice({ problem, work }: Reading): Violation[] {
  const stays: Stay[][] = problem.builders.map(() => []);
  for (const one of work)
    for (const builder of new Set(one.placement.crew.map((member) => member.builder)))
      for (const { start, end } of taken(one))
        stays[builder].push({ activity: one.placement.activity, start, end });
  return stays.flatMap((own, builder) => {
    const { id, unlimited } = problem.builders[builder];
    if (unlimited) return [];
    return collisions(own).map(([first, second]): Violation => ({
      kind: 'crew-twice',
      activities: [...new Set([first.activity, second.activity])],
      constraint: { kind: 'builder', builder },
      message: `${id} is on ${problem.activities[first.activity].id} until ${first.end} and on ${problem.activities[second.activity].id} from ${second.start}`,
    }));
  });
}

/** Who is on each activity. Frozen work is as it was. */
export function crew(reading: Reading): Violation[] {
  const own = reading.work.flatMap((one) =>
    one.frozen ? [] : [...demands(reading, one), ...seniors(reading, one)],
  );
  return [...own, ...twice(reading)];
}
