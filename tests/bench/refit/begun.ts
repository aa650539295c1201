import { excuseBegun } from '#planning/compile/work/reality.ts';
import type { Placement, Plan } from '#scheduling/model/plan.ts';
import type { Activity, Mode, Problem } from '#scheduling/model/problem.ts';

/** Where work that is over has left parts (in which space) and barriers (closed or not). */
interface Left {
  readonly parts: ReadonlyMap<number, number>;
  readonly barriers: ReadonlyMap<number, boolean>;
}

function leftBy({ activities }: Problem, over: readonly Placement[]): Left {
  const found = { parts: new Map<number, number>(), barriers: new Map<number, boolean>() };
  for (const { activity, mode } of over.toSorted((a, b) => a.finish - b.finish)) {
    const { modes, parts } = activities[activity];
    const { movesTo, barrier } = modes[mode];
    if (movesTo !== null) for (const part of parts) found.parts.set(part, movesTo);
    if (barrier !== null) found.barriers.set(barrier.barrier, barrier.closes);
  }
  return found;
}

/** The mode as it was done; what is over asks for nothing more, and its film is where its part is now. */
function modeOf(mode: Mode, { start, finish }: Placement, over: boolean, part: number | undefined) {
  const done: Mode = {
    ...mode,
    duration: finish - start,
    floor: 0,
    splittable: false,
    breaks: 'relieved',
    cleanDown: 0,
    forbidden: [],
    slots: null,
    cost: 0,
  };
  if (!over) return done;
  const space = part ?? mode.space;
  return { ...done, crew: [], demands: [], space, movesTo: null, barrier: null };
}

/**
 * A compiled yard as `compile` makes it once what a plan begins before `now` has begun: one mode as
 * it was; what is over keeps nobody and nothing, and parts and barriers are as it left them; what
 * is still going on is one piece to its end, and where somebody helps elsewhere while it pauses,
 * that help is excused (`excuseBegun`). Stocks are those of the beginning, so begun work consumes.
 */
export function begun(problem: Problem, plan: Plan, now: number): Problem {
  const started = new Map(
    plan.placements.filter(({ start }) => start < now).map((one) => [one.activity, one]),
  );
  const isOver = ({ finish }: Placement): boolean => finish <= now;
  const left = leftBy(problem, [...started.values()].filter(isOver));
  const filmed = new Set(problem.surfaces.map(({ activity }) => activity));
  const activities = problem.activities.map((own, a): Activity => {
    const placement = started.get(a);
    if (placement === undefined) return own;
    const { start, finish, mode, crew } = placement;
    const over = isOver(placement);
    const [part] = own.parts;
    return {
      ...own,
      modes: [modeOf(own.modes[mode], placement, over, left.parts.get(part))],
      releases: [],
      // The part of a film that is laid is what its surface is followed by.
      parts: over && !filmed.has(a) ? [] : own.parts,
      fixed: {
        kind: 'frozen',
        start,
        finish,
        builders: over ? [] : crew.map(({ builder }) => builder),
      },
    };
  });
  const draft: Problem = {
    ...problem,
    now,
    activities,
    parts: problem.parts.map((one, p) => ({ ...one, space: left.parts.get(p) ?? one.space })),
    barriers: problem.barriers.map((one, b) => ({
      ...one,
      closed: left.barriers.get(b) ?? one.closed,
    })),
  };
  return { ...draft, ...excuseBegun(draft) };
}
