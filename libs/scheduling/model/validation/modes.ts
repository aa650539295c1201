import type { Activity, BarrierAct, Mode, Problem } from '../problem.ts';
import { crew } from './people.ts';
import type { Report } from './report.ts';
import { consumption, demands } from './supply.ts';
import { intervals } from './time.ts';

function minutes(to: Report, path: string, mode: Mode): void {
  to.whole(`${path}.floor`, mode.floor, 0);
  if (mode.crew.length === 0) to.whole(`${path}.duration`, mode.duration, 0);
  else to.whole(`${path}.work`, mode.work, 1);
  const clean = to.whole(`${path}.cleanDown`, mode.cleanDown, 0);
  if (clean && mode.cleanDown > 0 && (mode.splittable || mode.crew.length === 0))
    to.add(
      'input.field',
      `${path}.cleanDown`,
      mode.splittable ? 'Work that pauses has no clean-down' : 'There is no crew to clean down',
      mode.cleanDown,
      'Give 0, or a crew and work in one piece.',
    );
}

/** A move or an act on a barrier has a moment before it and one after. */
function change(to: Report, path: string, what: string, mode: Mode): void {
  if (mode.crew.length > 0 || mode.duration >= 1) return;
  to.add(
    'input.field',
    path,
    `${what} takes no time`,
    mode.duration,
    'Give the mode a duration of a minute at least.',
  );
}

function moving(to: Report, path: string, mode: Mode, one: Activity, problem: Problem): void {
  if (mode.movesTo === null) return;
  to.index(path, mode.movesTo, problem.spaces.length, 'space');
  change(to, path, 'Moving a part', mode);
  if (one.parts.length > 0) return;
  const cure = 'Name the parts that it moves.';
  to.add('input.field', path, `${one.id} moves something and has no part`, mode.movesTo, cure);
}

function act(
  to: Report,
  path: string,
  mode: Mode,
  barrier: BarrierAct | null,
  problem: Problem,
): void {
  if (barrier === null) return;
  to.index(`${path}.barrier`, barrier.barrier, problem.barriers.length, 'barrier');
  change(to, path, 'Opening or closing', mode);
}

function forbidden(to: Report, path: string, mode: Mode): void {
  mode.forbidden.forEach(({ spans }, i) => {
    intervals(to, `${path}[${i}].spans`, spans, false);
  });
}

/** One way to do an activity; work that has happened is excused from the crew. */
export function mode(
  to: Report,
  path: string,
  one: Mode,
  activity: Activity,
  problem: Problem,
): void {
  const happened = activity.fixed?.kind === 'frozen';
  minutes(to, path, one);
  crew(to, `${path}.crew`, one.crew, problem, happened);
  demands(to, `${path}.demands`, one.demands, problem);
  consumption(to, `${path}.consumes`, one.consumes, problem);
  forbidden(to, `${path}.forbidden`, one);
  if (one.space !== null) to.index(`${path}.space`, one.space, problem.spaces.length, 'space');
  if (one.air === 'wet' && one.splittable)
    to.add(
      'input.field',
      `${path}.splittable`,
      'Wet work cannot pause',
      true,
      'Run it in one piece.',
    );
  moving(to, `${path}.movesTo`, one, activity, problem);
  act(to, `${path}.barrier`, one, one.barrier, problem);
  if (one.slots !== null)
    to.index(`${path}.slots`, one.slots, problem.slotLists.length, 'slot list');
  to.whole(`${path}.cost`, one.cost, 0);
}
