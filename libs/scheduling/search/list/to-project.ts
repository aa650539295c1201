import type { PureModel } from '../exact/pure.ts';
import { pack } from './packing.ts';
import { EventPass } from './pass-events.ts';
import { ParallelPass } from './pass-parallel.ts';
import { PeriodPass } from './pass-periods.ts';
import type { Project } from './project.ts';
import { linksOf, rightOrder, workOf, type Links } from './scheme.ts';

/**
 * A cell a period is taken for durations of at most this on the mean. Measured on twelve files each
 * of j30 and j120: 19 and 31 % quicker than events with the times as they are (a mean of 5.5), 7 %
 * quicker on j120 and slower on j30 with the times doubled.
 */
const SHORT = 8;

/**
 * The project of a model; null where the model asks for more than a project can say: a lag that
 * is not from finish to start and zero, a release, an activity that does not count or that asks
 * for more than there is, a horizon that may be in the way.
 */
export function toProject(model: PureModel): Project | null {
  const { count, duration, capacity, demand } = model;
  const span = duration.reduce((sum, d) => sum + d, 0);
  const isPlain =
    span <= model.horizon &&
    model.lags.every((l) => l.weight === duration[l.from]) &&
    model.release.every((r) => r <= 0) &&
    model.counts.every((c) => c === 1) &&
    demand.every((amounts, r) => amounts.every((amount) => amount <= capacity[r]));
  if (!isPlain) return null;
  const before: [Links, Links] = [
    linksOf(
      count,
      model.lags.map(({ from, to }) => [to, from]),
    ),
    linksOf(
      count,
      model.lags.map(({ from, to }) => [from, to]),
    ),
  ];
  const order = rightOrder(before[0], before[1]);
  if (order === null) return null;
  const back = order.toReversed();
  const ahead = longestToEnd(before[1], duration, back);
  const behind = longestToEnd(before[0], duration, order);
  const loads = demand.map((amounts, r) =>
    Math.ceil(amounts.reduce((sum, amount, i) => sum + amount * duration[i], 0) / capacity[r]),
  );
  const project: Project = {
    count,
    duration,
    packing: pack(capacity, demand, count),
    before,
    after: [before[1], before[0]],
    urgency: [ahead.map((d, i) => d - duration[i]), behind.map((d, i) => d - duration[i])],
    order: [order, back],
    span,
    least: Math.max(0, ...ahead, ...loads.filter((load) => !Number.isNaN(load))),
    work: workOf(duration, demand, capacity),
    pass: () =>
      project.packing.words === 1 && span <= SHORT * count
        ? new PeriodPass(project)
        : new EventPass(project),
    parallel: () => new ParallelPass(project),
  };
  return project;
}

/** Longest paths of durations from each start, over what follows; `order` has that first. */
function longestToEnd(after: Links, duration: Int32Array, order: Int32Array): Int32Array {
  const longest = duration.slice();
  for (const i of order) {
    for (let p = after.first[i]; p < after.first[i + 1]; p++) {
      longest[i] = Math.max(longest[i], duration[i] + longest[after.to[p]]);
    }
  }
  return longest;
}
