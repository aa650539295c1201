import type { Assignment, Placement } from '../../model/plan.ts';
import type { Ability, Builder, Problem } from '../../model/problem.ts';
import type { Planted } from '../planted.ts';
import {
  any,
  bound,
  changingMode,
  freedAt,
  modeOf,
  placing,
  replaced,
  sliding,
  touching,
  type Mutation,
} from './edit.ts';

export interface Post {
  readonly placement: Placement;
  readonly member: Assignment;
}

/** Everybody on something that is not frozen. */
export const posts = (source: Planted): Post[] =>
  bound(source).flatMap((placement) => placement.crew.map((member) => ({ placement, member })));

const others = (problem: Problem, placement: Placement): number[] =>
  problem.builders.flatMap((_, b) =>
    placement.crew.some((member) => member.builder === b) ? [] : [b],
  );

/** One hand too few or too many, one who serves another demand than there is, or a bystander. */
export const crewCount: Mutation = (source, rng) => {
  const { problem } = source;
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
  return { before: source, after: placing(source, { ...placement, crew }) };
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
    return { before: source, after: placing(source, { ...placement, crew }) };
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

/** The same builder, free all the time, with one ability more or another one. */
function twin(builder: Builder, id: string, ability: Ability): Builder {
  const rest = builder.abilities.filter(({ skill }) => skill !== ability.skill);
  return { ...builder, id, abilities: [...rest, ability] };
}

/** A learner beside somebody who is one level above, whose place then somebody takes who is not. */
export const senior: Mutation = (source, rng) => {
  const { problem } = source;
  const post = any(
    rng,
    posts(source).filter(
      ({ placement }) =>
        placement.crew.length > 1 &&
        problem.activities[placement.activity].fixed?.builders === undefined,
    ),
  );
  if (!post) return null;
  const { placement, member } = post;
  const { skill } = modeOf(problem, placement).crew[member.demand];
  const learner = problem.builders[member.builder];
  const own = learner.abilities.find((one) => one.skill === skill);
  const beside = any(
    rng,
    placement.crew.filter((one) => one !== member),
  );
  if (!own || !beside) return null;
  const seniors = placement.crew.filter(
    (one) =>
      one !== beside &&
      problem.builders[one.builder].abilities.some(
        (ability) => ability.skill === skill && ability.level > own.level,
      ),
  );
  if (seniors.length > 0) return null;
  const above = problem.builders[beside.builder];
  const speed = above.abilities.find((one) => one.skill === skill)?.speed ?? 100;
  const knows = (level: number): Ability => ({ skill, level, speed, needsSenior: false });
  const first = problem.builders.length;
  const made: Problem = {
    ...problem,
    builders: [
      ...problem.builders,
      twin(learner, 'tight-learner', { ...own, needsSenior: true }),
      twin(above, 'tight-senior', knows(own.level + 1)),
      twin(above, 'tight-peer', knows(own.level)),
    ],
  };
  const crew = (other: number): Assignment[] =>
    placement.crew.map((one) => {
      if (one === member) return { ...one, builder: first };
      return one === beside ? { ...one, builder: other } : one;
    });
  const before = placing({ ...source, problem: made }, { ...placement, crew: crew(first + 1) });
  return { before, after: placing(before, { ...placement, crew: crew(first + 2) }) };
};

/**
 * Frozen work of the same builder touches a working span, then overlaps it by one
 * minute; or somebody busy elsewhere takes a place.
 */
export const crewTwice: Mutation = (source, rng) => {
  const { problem, plan } = source;
  const post = any(rng, posts(source));
  if (!post) return null;
  const { placement, member } = post;
  const cleaning = { start: placement.finish, end: freedAt(problem, placement) };
  const spans = [...placement.segments, ...(cleaning.start < cleaning.end ? [cleaning] : [])];
  const span = any(rng, spans);
  if (!span) return null;
  if (rng.below(3) > 0) {
    const { span: at, step } = touching(rng, span);
    return sliding(source, at, step, { frozenBy: member.builder });
  }
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
  return { before: source, after: placing(source, { ...placement, crew }) };
};
