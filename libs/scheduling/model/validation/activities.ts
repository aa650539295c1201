import type { Activity, FixedWork, Mode, Problem } from '../problem.ts';
import { least } from './minutes.ts';
import { mode } from './modes.ts';
import { distinct, type Report } from './report.ts';

function frozen(to: Report, path: string, fixed: FixedWork, one: Activity, horizon: number): void {
  const { start, finish, builders } = fixed;
  const missing = Object.entries({ start, finish, builders }).filter(([, value]) => value === null);
  for (const [name] of missing)
    to.add(
      'input.field',
      `${path}.${name}`,
      `Frozen work does not give its ${name}`,
      null,
      `Give its ${name}.`,
    );
  if (start !== null) to.whole(`${path}.start`, start);
  // A move or an act on a barrier takes a minute at least, however long ago.
  const least = one.modes.some((way) => way.movesTo !== null || way.barrier !== null) ? 1 : 0;
  if (finish !== null) to.whole(`${path}.finish`, finish, (start ?? -Infinity) + least, horizon);
}

function wish(to: Report, path: string, fixed: FixedWork, one: Activity, horizon: number): void {
  const { start, finish, builders } = fixed;
  if (start !== null) to.whole(`${path}.start`, start, 0, horizon);
  if (finish !== null) to.whole(`${path}.finish`, finish, start ?? 0, horizon);
  if (builders === null) return;
  const heads = one.modes.map((way) => way.crew.reduce((sum, demand) => sum + demand.count, 0));
  if (!heads.includes(builders.length))
    to.add(
      'yard.crew',
      `${path}.builders`,
      `${builders.length} builders are set where the work is for ${[...new Set(heads)].join(' or ')}`,
      builders,
      'Set as many builders as one of the modes asks for.',
    );
}

function fixedWork(
  to: Report,
  path: string,
  fixed: FixedWork,
  one: Activity,
  problem: Problem,
): void {
  if (fixed.kind === 'frozen') frozen(to, path, fixed, one, problem.horizon);
  else wish(to, path, fixed, one, problem.horizon);
  if (fixed.builders)
    distinct(to, `${path}.builders`, fixed.builders, problem.builders.length, 'builder');
}

/** A slot that the mode fits into and that can still be booked, or none is needed. */
function fits(problem: Problem, mode: Mode): boolean {
  if (mode.slots === null) return true;
  const needed = least(problem, mode) + mode.cleanDown;
  return problem.slotLists[mode.slots].slots.some(
    ({ start, end, bookBy }) => end - start >= needed && bookBy >= problem.now,
  );
}

/** Work that has not happened can be done in a slot in one of its modes. */
function slots(to: Report, path: string, one: Activity, problem: Problem): void {
  if (one.fixed?.kind === 'frozen' || one.modes.some((way) => fits(problem, way))) return;
  to.add(
    'input.field',
    path,
    `No slot is long enough for ${one.id} and can still be booked at ${problem.now}`,
    one.modes.map((way) => way.slots),
    'Add a slot that is long enough and can still be booked.',
  );
}

export function activity(to: Report, path: string, one: Activity, problem: Problem): void {
  one.releases.forEach(({ at }, i) => {
    to.whole(`${path}.releases[${i}].at`, at, 0);
  });
  if (one.refit !== null) to.index(`${path}.refit`, one.refit, problem.refits.length, 'refit');
  distinct(to, `${path}.parts`, one.parts, problem.parts.length, 'part');
  if (one.modes.length === 0)
    to.add('input.field', `${path}.modes`, 'There is no way to do it', [], 'Give a mode at least.');
  const before = to.faults.length;
  one.modes.forEach((way, m) => {
    mode(to, `${path}.modes[${m}]`, way, one, problem);
  });
  if (to.faults.length === before && one.modes.length > 0) slots(to, `${path}.modes`, one, problem);
  if (one.fixed) fixedWork(to, `${path}.fixed`, one.fixed, one, problem);
}
