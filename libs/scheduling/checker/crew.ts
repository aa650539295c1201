import type { Interval } from '../model/problem.ts';
import type { Reading, Work } from './reading.ts';
import type { Violation } from './violation.ts';

/** Each demand served by its count of builders who have the skill at the level. */
function demands({ problem }: Reading, { placement, activity, mode }: Work): Violation[] {
  const found: Violation[] = [];
  const activities = [placement.activity];
  mode.crew.forEach((demand, d) => {
    const serving = placement.crew.filter((member) => member.demand === d);
    if (serving.length !== demand.count)
      found.push({
        kind: 'crew-count',
        activities,
        message: `${activity.id} has ${serving.length} of ${demand.count} for ${problem.skills[demand.skill]}`,
      });
    for (const { builder } of serving) {
      const able = problem.builders[builder].abilities.some(
        (ability) => ability.skill === demand.skill && ability.level >= demand.minLevel,
      );
      if (!able)
        found.push({
          kind: 'crew-skill',
          activities,
          builder,
          message: `${problem.builders[builder].id} does not have ${problem.skills[demand.skill]} at level ${demand.minLevel} for ${activity.id}`,
        });
    }
  });
  for (const { builder, demand } of placement.crew)
    if (!(demand in mode.crew))
      found.push({
        kind: 'crew-count',
        activities,
        builder,
        message: `${problem.builders[builder].id} serves no demand of ${activity.id}`,
      });
  return found;
}

interface Stay extends Interval {
  readonly activity: number;
}

/** One builder's stays in order; two that overlap, or one activity that counts the builder twice. */
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

/** Who is on each activity, and nobody in two places at once. Frozen work is as it was, but occupies its people. */
export function crew(reading: Reading): Violation[] {
  const { problem, work } = reading;
  const found = work.flatMap((one) => (one.frozen ? [] : demands(reading, one)));
  const stays: Stay[][] = problem.builders.map(() => []);
  for (const { placement } of work)
    for (const { builder } of placement.crew)
      for (const { start, end } of placement.segments)
        stays[builder].push({ activity: placement.activity, start, end });
  stays.forEach((own, builder) => {
    for (const [first, second] of collisions(own))
      found.push({
        kind: 'crew-twice',
        activities: [...new Set([first.activity, second.activity])],
        builder,
        message: `${problem.builders[builder].id} is on ${problem.activities[first.activity].id} until ${first.end} and on ${problem.activities[second.activity].id} from ${second.start}`,
      });
  });
  return found;
}
