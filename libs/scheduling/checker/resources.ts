import type { Interval } from '../model/problem.ts';
import type { Reading } from './reading.ts';
import type { Violation } from './violation.ts';

interface Use extends Interval {
  readonly activity: number;
  readonly amount: number;
}

function uses(reading: Reading): Use[][] {
  const all: Use[][] = reading.problem.resources.map(() => []);
  for (const { placement, mode } of reading.work) {
    const { activity, start, finish, segments } = placement;
    for (const { resource, amount, keptWhilePaused } of mode.demands)
      for (const span of keptWhilePaused ? [{ start, end: finish }] : segments)
        if (span.start < span.end)
          all[resource].push({ activity, amount, start: span.start, end: span.end });
  }
  return all;
}

/**
 * Use against capacity. Both change only where a use starts or ends or the capacity
 * steps, so the sums at those minutes decide. Before minute 0 only frozen work lies and
 * nothing is known of capacity.
 */
export function resources(reading: Reading): Violation[] {
  const found: Violation[] = [];
  uses(reading).forEach((own, index) => {
    const { id, steps } = reading.problem.resources[index];
    const changes = [
      ...own.flatMap((use) => [
        { at: Math.max(0, use.start), use: use.amount, capacity: 0 },
        { at: Math.max(0, use.end), use: -use.amount, capacity: 0 },
      ]),
      ...steps.map((step, i) => ({
        at: step.from,
        use: 0,
        capacity: step.capacity - (i === 0 ? 0 : steps[i - 1].capacity),
      })),
    ].sort((a, b) => a.at - b.at);
    let used = 0;
    let capacity = 0;
    changes.forEach((change, i) => {
      used += change.use;
      capacity += change.capacity;
      const settled = i === changes.length - 1 || changes[i + 1].at > change.at;
      if (!settled || used <= capacity) return;
      const { at } = change;
      found.push({
        kind: 'resource',
        activities: own.filter((use) => use.start <= at && at < use.end).map((use) => use.activity),
        resource: index,
        message: `${id} gives ${capacity} at ${at} and ${used} are used`,
      });
    });
  });
  return found;
}
