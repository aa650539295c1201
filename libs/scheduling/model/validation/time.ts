import type {
  Calendar,
  Interval,
  LagFunctions,
  LagTable,
  LineTable,
  Overtime,
  Problem,
  StepTable,
} from '../problem.ts';
import type { Report } from './report.ts';

/** A bound on minutes that leaves room for products below 2^53. */
const LATEST_KNOT = 2 ** 31 - 1;

/** Whole, not empty, sorted and disjoint; with `apart`, not touching either. */
export function intervals(
  to: Report,
  path: string,
  spans: readonly Interval[],
  apart: boolean,
): void {
  let previous = -Infinity;
  spans.forEach(({ start, end }, i) => {
    const own = `${path}[${i}]`;
    const whole = [to.whole(`${own}.start`, start), to.whole(`${own}.end`, end)];
    if (whole.includes(false)) return;
    if (start >= end)
      to.add('input.field', own, 'It ends before it has begun', { start, end }, 'End it later.');
    if (apart ? start <= previous : start < previous) {
      const what = `It begins at ${start} and the one before ends at ${previous}`;
      to.add(
        apart ? 'yard.shifts-overlap' : 'input.field',
        own,
        what,
        { start, end },
        'Sort the list and merge what overlaps or touches.',
      );
    }
    previous = Math.max(previous, end);
  });
}

function overtime(
  to: Report,
  path: string,
  list: readonly Overtime[],
  shifts: readonly Interval[],
): void {
  intervals(to, path, list, false);
  list.forEach(({ start, end, cost }, i) => {
    const own = `${path}[${i}]`;
    to.whole(`${own}.cost`, cost, 0);
    const shift = shifts.find((one) => one.start < end && start < one.end);
    if (shift === undefined) return;
    to.add(
      'yard.shifts-overlap',
      own,
      `It meets the shift from ${shift.start} to ${shift.end}`,
      { start, end },
      'Keep overtime out of the shifts; it may touch them.',
    );
  });
}

export function calendar(to: Report, path: string, one: Calendar): void {
  const { shifts, breaks } = one;
  intervals(to, `${path}.shifts`, shifts, true);
  intervals(to, `${path}.breaks`, breaks, false);
  breaks.forEach((pause, i) => {
    if (shifts.some((shift) => shift.start <= pause.start && pause.end <= shift.end)) return;
    const own = `${path}.breaks[${i}]`;
    to.add('input.field', own, 'The break is not inside a shift', pause, 'Move it into a shift.');
  });
  overtime(to, `${path}.overtime`, one.overtime, shifts);
}

/** Values of a table: whole, no later than never, and never descending. */
function moments(to: Report, path: string, values: readonly number[], horizon: number): void {
  values.forEach((value, k) => {
    const own = `${path}[${k}]`;
    const whole = to.whole(own, value, -Infinity, horizon + 1);
    if (whole && k > 0 && value < values[k - 1])
      to.add(
        'input.field',
        own,
        `It is less than the value before, ${values[k - 1]}`,
        value,
        'A later anchor may not give an earlier moment: give a non-decreasing table.',
      );
  });
}

function steps(to: Report, path: string, { grid, values }: StepTable, horizon: number): void {
  const stepped = to.whole(`${path}.grid`, grid, 1);
  if (stepped && (values.length - 1) * grid < horizon)
    to.add(
      'input.field',
      `${path}.values`,
      `It ends at minute ${(values.length - 1) * grid}, before the horizon ${horizon}`,
      values.length,
      `Give ${Math.ceil(horizon / grid) + 1} values.`,
    );
}

/** Knots from minute 0 to the horizon or beyond, strictly ascending, so close that reading between them is exact. */
function knots(to: Report, path: string, { at, values }: LineTable, horizon: number): void {
  const own = `${path}.at`;
  const whole = at.every((minute, k) => to.whole(`${own}[${k}]`, minute, 0, LATEST_KNOT));
  if (at.length === 0 || at.length !== values.length)
    to.add(
      'input.field',
      own,
      `It has ${at.length} knots and ${values.length} values`,
      at.length,
      'Give a value for each knot, and at least one.',
    );
  if (!whole || at.length === 0) return;
  if (at[0] !== 0)
    to.add('input.field', `${own}[0]`, 'It does not begin at minute 0', at[0], 'Begin at 0.');
  if (at[at.length - 1] < horizon)
    to.add(
      'input.field',
      own,
      `It ends at minute ${at[at.length - 1]}, before the horizon ${horizon}`,
      at[at.length - 1],
      'Give a knot at the horizon or later.',
    );
  for (let k = 1; k < at.length; k += 1) {
    if (at[k] <= at[k - 1])
      to.add(
        'input.field',
        `${own}[${k}]`,
        `It is no later than the knot before, ${at[k - 1]}`,
        at[k],
        'Sort the knots, and give each minute once.',
      );
    else if ((at[k] - at[k - 1]) * (values[k] - values[k - 1]) > Number.MAX_SAFE_INTEGER)
      to.add(
        'input.field',
        `${path}.values[${k}]`,
        `It rises by ${values[k] - values[k - 1]} in ${at[k] - at[k - 1]} minutes, too far to be read exactly`,
        values[k],
        'Give knots in between.',
      );
  }
}

export function table(to: Report, path: string, one: LagTable, horizon: number): void {
  if ('at' in one) knots(to, path, one, horizon);
  else steps(to, path, one, horizon);
  moments(to, `${path}.values`, one.values, horizon);
}

/** One function, or one for each mode of the activity whose anchor they take. */
export function lagFunctions(
  to: Report,
  path: string,
  fns: LagFunctions,
  owner: number,
  problem: Problem,
): void {
  fns.forEach((fn, i) => {
    const own = `${path}[${i}]`;
    if (fn.kind === 'constant') to.whole(`${own}.minutes`, fn.minutes);
    else to.index(`${own}.table`, fn.table, problem.tables.length, 'table');
  });
  const modes = problem.activities.at(owner)?.modes.length ?? 1;
  if (fns.length === 1 || fns.length === modes) return;
  to.add(
    'input.field',
    path,
    `${fns.length} functions are given for an activity of ${modes} modes`,
    fns.length,
    modes === 1 ? 'Give one function.' : `Give one function, or ${modes}.`,
  );
}
