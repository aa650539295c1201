import type { Assignment, Placement } from '../../model/plan.ts';
import type { Calendar, Interval, Problem } from '../../model/problem.ts';
import type { Planted } from '../planted.ts';
import {
  any,
  changingMode,
  isFrozen,
  modeOf,
  moved,
  placing,
  probed,
  replaced,
  stretched,
  type Mutation,
} from './edit.ts';

interface Post {
  readonly placement: Placement;
  readonly member: Assignment;
}

/** Everybody on something that is not frozen. */
const posts = ({ problem, plan }: Planted): Post[] =>
  plan.placements
    .filter((placement) => !isFrozen(problem, placement))
    .flatMap((placement) => placement.crew.map((member) => ({ placement, member })));

const others = (problem: Problem, placement: Placement): number[] =>
  problem.builders.flatMap((_, b) =>
    placement.crew.some((member) => member.builder === b) ? [] : [b],
  );

/** One hand too few or too many, one who serves another demand than there is, or a bystander. */
export const crewCount: Mutation = (source, rng) => {
  const { problem, plan } = source;
  const post = any(rng, posts(source));
  if (!post) return null;
  const { placement, member } = post;
  const rest = placement.crew.filter((one) => one !== member);
  const extra = any(rng, others(problem, placement));
  const way = rng.below(4);
  const none = modeOf(problem, placement).crew.length;
  let crew = rest;
  if (way === 1 && extra !== null)
    crew = [...placement.crew, { builder: extra, demand: member.demand }];
  else if (way === 2) crew = [...rest, { ...member, demand: none }];
  else if (way === 3 && extra !== null)
    crew = [...placement.crew, { builder: extra, demand: none }];
  return { before: source, after: { problem, plan: placing(plan, { ...placement, crew }) } };
};

/** Somebody without the skill takes the place, or the level asked for is just met and then raised by one. */
export const crewSkill: Mutation = (source, rng) => {
  const { problem, plan } = source;
  const post = any(rng, posts(source));
  if (!post) return null;
  const { placement, member } = post;
  const demand = modeOf(problem, placement).crew[member.demand];
  const levelOf = (b: number): number =>
    problem.builders[b].abilities.find((one) => one.skill === demand.skill)?.level ?? -1;
  const unable = any(
    rng,
    others(problem, placement).filter((b) => levelOf(b) < demand.minLevel),
  );
  if (unable !== null && rng.below(2) === 0) {
    const crew = placement.crew.map((one) => (one === member ? { ...one, builder: unable } : one));
    return { before: source, after: { problem, plan: placing(plan, { ...placement, crew }) } };
  }
  const serving = placement.crew.filter((one) => one.demand === member.demand);
  const level = Math.min(...serving.map((one) => levelOf(one.builder)));
  const asking = (minLevel: number): Planted => ({
    problem: changingMode(problem, placement, (mode) => ({
      ...mode,
      crew: replaced(mode.crew, member.demand, { ...demand, minLevel }),
    })),
    plan,
  });
  return { before: asking(level), after: asking(level + 1) };
};

/**
 * A frozen probe of the same builder touches a working segment, then overlaps it by one
 * minute; or somebody busy elsewhere takes a place.
 */
export const crewTwice: Mutation = (source, rng) => {
  const { problem, plan } = source;
  const post = any(rng, posts(source));
  if (!post) return null;
  const { placement, member } = post;
  const span = any(rng, placement.segments);
  if (!span) return null;
  const way = rng.below(3);
  if (way === 0) {
    const busy = others(problem, placement).filter((b) =>
      plan.placements.some(
        (one) =>
          one.crew.some((other) => other.builder === b) &&
          one.segments.some((other) => other.start < span.end && span.start < other.end),
      ),
    );
    const builder = any(rng, busy);
    if (builder === null) return null;
    const crew = placement.crew.map((one) => (one === member ? { ...one, builder } : one));
    return { before: source, after: { problem, plan: placing(plan, { ...placement, crew }) } };
  }
  const minutes = 1 + rng.below(15);
  const frozenBy = member.builder;
  const start = way === 1 ? span.end : span.start - minutes;
  const step = way === 1 ? -1 : 1;
  const at = (minute: number): Planted =>
    probed(source, { start: minute, end: minute + minutes }, { frozenBy });
  if (start < 1 || start + minutes > problem.horizon) return null;
  return { before: at(start), after: at(start + step) };
};

/** The builder alone gets a changed copy of the calendar. */
function rostered(source: Planted, builder: number, change: (old: Calendar) => Calendar): Planted {
  const { problem, plan } = source;
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

/** The calendar with one shift cut to a span, its breaks with it. */
function cut({ id, shifts, breaks }: Calendar, old: Interval, kept: Interval): Calendar {
  return {
    id,
    shifts: shifts.map((shift) => (shift === old ? kept : shift)),
    breaks: breaks
      .filter(
        ({ start, end }) =>
          end <= old.start || start >= old.end || (start < kept.end && end > kept.start),
      )
      .map((pause) =>
        pause.start >= old.start && pause.end <= old.end
          ? { start: Math.max(pause.start, kept.start), end: Math.min(pause.end, kept.end) }
          : pause,
      ),
  };
}

/**
 * The shift made to end with the builder's last minute of work in it, or to begin with the
 * first, or an observed break put right behind the work; then the work leaves by one minute.
 */
export const shift: Mutation = (source, rng) => {
  const { problem, plan } = source;
  const post = any(rng, posts(source));
  if (!post) return null;
  const { placement, member } = post;
  const mode = modeOf(problem, placement);
  const { shifts, breaks } = problem.calendars[problem.builders[member.builder].calendar];
  const way = rng.below(3);
  const edge = way === 1 ? placement.start : placement.finish;
  const own = shifts.find((one) => one.start <= edge && edge <= one.end && one.start < one.end);
  if (!own) return null;
  const later = mode.splittable ? stretched(placement, 1) : moved(placement, 1);
  const earlier = moved(placement, -1);
  const wrong = placing(plan, way === 1 ? earlier : later);
  let tight: Planted;
  if (way === 0)
    tight = rostered(source, member.builder, (old) => cut(old, own, { ...own, end: edge }));
  else if (way === 1) {
    if (edge < 1) return null;
    tight = rostered(source, member.builder, (old) => cut(old, own, { ...own, start: edge }));
  } else {
    if (mode.splittable || mode.breaks !== 'observed' || edge + 1 >= own.end) return null;
    const pause = { start: edge, end: edge + 1 };
    if (breaks.some((one) => one.start < pause.end && pause.start < one.end)) return null;
    tight = rostered(source, member.builder, (old) => ({
      ...old,
      breaks: [...old.breaks, pause].sort((a, b) => a.start - b.start),
    }));
  }
  return { before: tight, after: { problem: tight.problem, plan: wrong } };
};
