import { functionFor, opensAt } from '../model/lag.ts';
import type { Hold, HoldEnd, Interval } from '../model/problem.ts';
import { taken, type Reading, type Work } from './reading.ts';
import type { Violation } from './violation.ts';

interface Use extends Interval {
  readonly activity: number;
  readonly amount: number;
  /** Null for a demand. */
  readonly hold: number | null;
}

/** A moment before which a hold may not end; null where an absent activity would say. */
function endsAt({ problem, workOf }: Reading, holder: Work, end: HoldEnd): number | null {
  if (end.kind === 'activity') return workOf[end.activity]?.placement[end.anchor] ?? null;
  const { mode, finish } = holder.placement;
  return opensAt(problem, functionFor(end.fns, mode), finish);
}

function held(reading: Reading, { activity, ends }: Hold): Interval | null {
  const holder = reading.workOf[activity];
  if (!holder) return null;
  const { start, finish } = holder.placement;
  const moments = ends.map((end) => endsAt(reading, holder, end)).filter((at) => at !== null);
  return { start, end: Math.max(finish, ...moments) };
}

/** By resource: what demands take while the work does, and holds until they end. */
function uses(reading: Reading): Use[][] {
  const all: Use[][] = reading.problem.resources.map(() => []);
  const use = (
    resource: number,
    { start, end }: Interval,
    of: Omit<Use, 'start' | 'end'>,
  ): void => {
    if (start < end) all[resource].push({ start, end, ...of });
  };
  for (const work of reading.work) {
    const { activity, start } = work.placement;
    for (const { resource, amount, keptWhilePaused } of work.mode.demands)
      for (const span of keptWhilePaused ? [{ start, end: work.freed }] : taken(work))
        use(resource, span, { activity, amount, hold: null });
  }
  reading.problem.holds.forEach((hold, h) => {
    const span = held(reading, hold);
    if (span) use(hold.resource, span, { activity: hold.activity, amount: hold.amount, hold: h });
  });
  return all;
}

/** Too much is used at a moment: a hold is to blame where it would fit without that one. */
function overuse(
  { problem }: Reading,
  resource: number,
  at: number,
  capacity: number,
  own: readonly Use[],
): Violation {
  const then = own.filter((use) => use.start <= at && at < use.end);
  const used = then.reduce((sum, use) => sum + use.amount, 0);
  const cause = then.find(({ hold, amount }) => hold !== null && used - amount <= capacity);
  const activities = [...new Set(then.map((use) => use.activity))];
  const message = `${problem.resources[resource].id} gives ${capacity} at ${at} and ${used} are used`;
  if (cause === undefined || cause.hold === null)
    return { kind: 'resource', activities, constraint: { kind: 'resource', resource }, message };
  const { hold } = cause;
  return {
    kind: 'hold',
    activities,
    constraint: { kind: 'hold', hold },
    message: `${message}, ${cause.amount} held by ${problem.holds[hold].id} until ${cause.end}`,
  };
}

/**
 * Use against capacity. Both change only where a use starts or ends or the capacity
 * steps, so the sums at those minutes decide. Before minute 0 only frozen work lies and
 * nothing is known of capacity.
 */
export function resources(reading: Reading): Violation[] {
  const found: Violation[] = [];
  uses(reading).forEach((own, index) => {
    const { steps } = reading.problem.resources[index];
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
      if (settled && used > capacity) found.push(overuse(reading, index, change.at, capacity, own));
    });
  });
  return found;
}
