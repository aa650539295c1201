import type { Distances } from '../../propagation/closure.ts';
import type { PureModel } from './pure.ts';

/**
 * The least makespan by the work on each resource: the activities that start no earlier than h and
 * have at least t to come after their finish need their work between h and makespan - t, for every
 * such h and t. O(n^2) a resource. `distances`: closed over the starts, the makespan (node `count`)
 * and the origin (the last node).
 *
 * The extended resource bound of A. Mingozzi, V. Maniezzo, S. Ricciardelli, L. Bianco, "An exact
 * algorithm for the resource-constrained project scheduling problem based on a new mathematical
 * formulation", Management Science 44 (1998) 714-729, in its plain form.
 */
export function leastByLoad(model: PureModel, distances: Distances): number {
  const { count, duration, counts } = model;
  const head = Int32Array.from(duration, (_, i) => distances.at(count + 1, i));
  const tail = Int32Array.from(duration, (d, i) => distances.at(i, count) - d);
  let least = 0;
  model.demand.forEach((demand, r) => {
    const users = Array.from(duration, (_, i) => i)
      .filter((i) => demand[i] > 0 && duration[i] > 0 && counts[i] === 1)
      .sort((a, b) => tail[b] - tail[a]);
    for (const from of new Set(users.map((i) => head[i]))) {
      let work = 0;
      for (const i of users) {
        if (head[i] < from) continue;
        work += demand[i] * duration[i];
        least = Math.max(least, from + Math.ceil(work / model.capacity[r]) + tail[i]);
      }
    }
  });
  return least;
}
