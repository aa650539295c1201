import type { Random } from '#kernel/random.ts';
import type { Placement } from '../../model/plan.ts';
import type { Calendar, Interval, Problem } from '../../model/problem.ts';
import type { Planted } from '../planted.ts';
import {
  any,
  bound,
  changingMode,
  freedAt,
  isFrozen,
  modeOf,
  moved,
  placing,
  probed,
  replaced,
  stretched,
  type Mutant,
  type Mutation,
} from './edit.ts';
import { posts } from './people.ts';

/** What is left of a span without one minute. */
const without = <T extends Interval>(spans: readonly T[], minute: number): T[] =>
  spans.flatMap((span) =>
    minute < span.start || minute >= span.end
      ? [span]
      : [
          { ...span, end: minute },
          { ...span, start: minute + 1 },
        ].filter(({ start, end }) => start < end),
  );

const gap = ({ shifts, breaks, overtime, source }: Calendar, minute: number): Calendar => ({
  id: 'tight',
  shifts: without(shifts, minute),
  breaks: without(breaks, minute),
  overtime: without(overtime, minute),
  source,
});

/** The builder alone gets a changed copy of the calendar. */
function rostered(
  { problem, plan }: Planted,
  builder: number,
  change: (old: Calendar) => Calendar,
): Planted {
  const own = problem.builders[builder];
  const copy = { ...change(problem.calendars[own.calendar]), id: 'tight' };
  return {
    plan,
    problem: {
      ...problem,
      calendars: [...problem.calendars, copy],
      builders: replaced(problem.builders, builder, {
        ...own,
        calendar: problem.calendars.length,
      }),
    },
  };
}

/** The minute before the work, and the work a minute earlier; or the minute after it, and it later. */
function edge(
  rng: Random,
  problem: Problem,
  placement: Placement,
): { readonly minute: number; readonly wrong: Placement } {
  if (rng.below(2) === 0) return { minute: placement.start - 1, wrong: moved(placement, -1) };
  const later = modeOf(problem, placement).splittable
    ? stretched(placement, 1)
    : moved(placement, 1);
  return { minute: freedAt(problem, placement), wrong: later };
}

/** Work that needs overtime is placed without it. */
function refused(source: Planted, rng: Random): Mutant | null {
  const { problem } = source;
  const asked = bound(source).filter(
    ({ overtime, crew, segments }) =>
      overtime &&
      crew.some(({ builder }) =>
        problem.calendars[problem.builders[builder].calendar].overtime.some((extra) =>
          segments.some((span) => span.start < extra.end && extra.start < span.end),
        ),
      ),
  );
  const placement = any(rng, asked);
  if (!placement) return null;
  return { before: source, after: placing(source, { ...placement, overtime: false }) };
}

/** A break put right behind work that observes it, which then runs into it. */
function hurried(source: Planted, rng: Random): Mutant | null {
  const { problem } = source;
  const post = any(
    rng,
    posts(source).filter(({ placement }) => {
      const { splittable, breaks, cleanDown } = modeOf(problem, placement);
      return !splittable && breaks === 'observed' && cleanDown === 0;
    }),
  );
  if (!post) return null;
  const { placement, member } = post;
  const pause = { start: placement.finish, end: placement.finish + 1 };
  const { shifts, breaks } = problem.calendars[problem.builders[member.builder].calendar];
  const inside = shifts.some(({ start, end }) => start < pause.start && pause.end < end);
  if (!inside || breaks.some((one) => one.start <= pause.end && pause.start <= one.end))
    return null;
  const before = rostered(source, member.builder, (old) => ({
    ...old,
    breaks: [...old.breaks, pause].sort((a, b) => a.start - b.start),
  }));
  return { before, after: placing(before, moved(placement, 1)) };
}

/** Somebody gets the minute before or after the work off, and the work goes there. */
export const shift: Mutation = (source, rng) => {
  const way = rng.below(4);
  if (way === 0) return refused(source, rng);
  if (way === 1) return hurried(source, rng);
  const post = any(rng, posts(source));
  if (!post) return null;
  const { placement, member } = post;
  const { minute, wrong } = edge(rng, source.problem, placement);
  // The clean-down would be the first to leave.
  if (minute > placement.finish) return null;
  const before = rostered(source, member.builder, (old) => gap(old, minute));
  return { before, after: placing(before, wrong) };
};

/** Somebody goes when the clean-down is over, and then has to go before it is. */
export const cleanDown: Mutation = (source, rng) => {
  const { problem, plan } = source;
  const post = any(
    rng,
    posts(source).filter(({ placement }) => !modeOf(problem, placement).splittable),
  );
  if (!post) return null;
  const { placement, member } = post;
  const minutes = Math.max(modeOf(problem, placement).cleanDown, rng.below(10) + 1);
  const lasting = (cleanDown: number): Problem =>
    changingMode(problem, placement, (mode) => ({ ...mode, cleanDown }));
  const freed = placement.finish + minutes;
  const leaving = (from: Problem): Planted =>
    placing(
      rostered({ problem: from, plan }, member.builder, (old) => gap(old, freed)),
      placement,
    );
  const before = leaving(lasting(minutes));
  const after =
    rng.below(2) === 0 ? placing(before, moved(placement, 1)) : leaving(lasting(minutes + 1));
  return { before, after };
};

/** A tool that is off in the minute before or after the work, which then goes there. */
export const hours: Mutation = (source, rng) => {
  const { problem, plan } = source;
  const placement = any(
    rng,
    bound(source).filter(({ start, finish }) => start < finish),
  );
  if (!placement) return null;
  const { minute, wrong } = edge(rng, problem, placement);
  if (minute < 1) return null;
  const all = [{ start: 0, end: problem.horizon + 1 }];
  const off = { start: minute, end: minute + 1 };
  const resting = rng.below(2) === 0 && minute < problem.horizon;
  const calendar: Calendar = {
    id: 'tight-hours',
    shifts: resting ? all : without(all, minute),
    breaks: resting ? [off] : [],
    overtime: [],
    source: 'tight',
  };
  const demand = {
    resource: problem.resources.length,
    amount: 1,
    keptWhilePaused: rng.below(2) === 0 && modeOf(problem, placement).splittable,
  };
  const tight: Problem = {
    ...changingMode(problem, placement, (mode) => ({
      ...mode,
      demands: [...mode.demands, demand],
    })),
    calendars: [...problem.calendars, calendar],
    resources: [
      ...problem.resources,
      {
        id: 'tight',
        steps: [{ from: 0, capacity: 1 }],
        calendar: problem.calendars.length,
        source: 'tight',
      },
    ],
  };
  const before = { problem: tight, plan };
  return { before, after: placing(before, wrong) };
};

/** What happened, or what nobody does, is said to be done in overtime. */
export const overtime: Mutation = (source, rng) => {
  const { problem, plan } = source;
  const placement = any(
    rng,
    plan.placements.filter((one) => one.crew.length === 0 || isFrozen(problem, one)),
  );
  if (placement)
    return { before: source, after: placing(source, { ...placement, overtime: true }) };
  const start = rng.below(problem.horizon);
  const before = probed(source, { start, end: start });
  const last = before.plan.placements[plan.placements.length];
  return { before, after: placing(before, { ...last, overtime: true }) };
};
