import type { Published } from '#scheduling/model/problem.ts';
import type { Task } from '../../workload/workload.ts';
import type { Crew } from '../site/crew.ts';
import type { Frame } from '../frame/time.ts';

/** What people have been told: instants, and people by id. */
export interface PublishedPlan {
  /** Minutes by which a start may differ without having moved. */
  readonly toleranceMinutes: number;
  readonly tasks: readonly {
    readonly task: string;
    readonly start: string;
    readonly people: readonly string[];
  }[];
}

/** A moved task of the next two days disturbs as much as so many later ones. */
const SOON = 5;
const SOON_MINUTES = 2 * 1440;

/** The published plan as the engine reads it; what has begun, the rest of it too, or is gone has no part in it. */
export function publishedOf(
  plan: PublishedPlan,
  index: ReadonlyMap<string, number>,
  tasks: readonly Task[],
  crew: Crew,
  frame: Frame,
): Published {
  const told = plan.tasks.flatMap(({ task, start, people }) => {
    const activity = index.get(task);
    if (activity === undefined || tasks[activity].state !== 'waiting') return [];
    const at = frame.minuteOf(start);
    const builders = people.flatMap((person) => crew.builderIndex.get(person) ?? []);
    const weight = at < frame.now + SOON_MINUTES ? SOON : 1;
    return [{ activity, start: at, builders, weight }];
  });
  return { tolerance: plan.toleranceMinutes, tasks: told };
}
