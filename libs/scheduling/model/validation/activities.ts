import type { Activity, FixedWork, Mode, Problem } from '../problem.ts';
import { crew } from './people.ts';
import type { Report } from './report.ts';
import { demands } from './supply.ts';
import { intervals } from './time.ts';

function work(to: Report, path: string, mode: Mode): void {
  to.whole(`${path}.floor`, mode.floor, 0);
  if (mode.crew.length === 0) to.whole(`${path}.duration`, mode.duration, 0);
  else to.whole(`${path}.work`, mode.work, 1);
}

function mode(to: Report, path: string, one: Mode, problem: Problem, happened: boolean): void {
  work(to, path, one);
  crew(to, `${path}.crew`, one.crew, problem, happened);
  demands(to, `${path}.demands`, one.demands, problem);
  intervals(to, `${path}.forbiddenStarts`, one.forbiddenStarts, false);
  if (one.space !== null) to.index(`${path}.space`, one.space, problem.spaces.length, 'space');
  if (one.air === 'wet' && one.splittable)
    to.add(
      'input.field',
      `${path}.splittable`,
      'Wet work cannot pause',
      true,
      'Run it in one piece.',
    );
}

function frozen(
  to: Report,
  path: string,
  { start, finish, builders }: FixedWork,
  horizon: number,
): void {
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
  if (finish !== null) to.whole(`${path}.finish`, finish, start ?? -Infinity, horizon);
}

function wish(to: Report, path: string, fixed: FixedWork, one: Activity, horizon: number): void {
  const { start, finish, builders } = fixed;
  if (start !== null) to.whole(`${path}.start`, start, Math.max(0, one.release), horizon);
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
  if (fixed.kind === 'frozen') frozen(to, path, fixed, problem.horizon);
  else wish(to, path, fixed, one, problem.horizon);
  fixed.builders?.forEach((builder, i, all) => {
    const own = `${path}.builders[${i}]`;
    to.index(own, builder, problem.builders.length, 'builder');
    if (all.indexOf(builder) < i)
      to.add('yard.duplicate', own, 'The builder is named twice', builder);
  });
}

export function activity(to: Report, path: string, one: Activity, problem: Problem): void {
  to.whole(`${path}.release`, one.release, 0);
  if (one.refit !== null) to.index(`${path}.refit`, one.refit, problem.refits.length, 'refit');
  if (one.modes.length === 0)
    to.add('input.field', `${path}.modes`, 'There is no way to do it', [], 'Give a mode at least.');
  one.modes.forEach((way, m) => {
    mode(to, `${path}.modes[${m}]`, way, problem, one.fixed?.kind === 'frozen');
  });
  if (one.fixed) fixedWork(to, `${path}.fixed`, one.fixed, one, problem);
}
