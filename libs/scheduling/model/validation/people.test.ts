import { describe, expect, it } from 'vitest';
import { activity, builder, mode, problem } from '../../testing/make.ts';
import type { Ability, Builder, CrewDemand, Problem } from '../problem.ts';
import { validate } from '../validate.ts';

const found = (given: Partial<Problem>): string[] =>
  validate(problem(given)).map(({ code, path }) => `${code} ${path}`);
const cases = (list: readonly (readonly [string, Partial<Problem>, readonly string[]])[]): void => {
  it.each(list)('%s', (_, given, expected) => {
    expect(found(given)).toEqual(expected);
  });
};

const own = 'activities[0].modes[0]';

describe('learners', () => {
  const can = (skill: number, level: number, needsSenior = false): Ability => ({
    skill,
    level,
    speed: 100,
    needsSenior,
  });
  const team = (...all: readonly (readonly Ability[])[]): Builder[] =>
    all.map((abilities, i) => builder(`b${i}`, { abilities }));
  const crew = (builders: readonly Builder[], ...demands: readonly CrewDemand[]) => ({
    builders,
    activities: [activity('A', [mode({ work: 100, crew: demands })])],
  });
  const of = (skill: number, count = 1, minLevel = 1): CrewDemand => ({ skill, minLevel, count });
  cases([
    ['alone in the yard', crew(team([can(0, 1, true)]), of(0)), [`yard.skill ${own}.crew[0]`]],
    [
      'of one level',
      crew(team([can(0, 1, true)], [can(0, 1, true)]), of(0, 2)),
      [`yard.skill ${own}.crew[0]`],
    ],
    [
      'one alone, though another learner is above',
      crew(team([can(0, 1, true)], [can(0, 2, true)]), of(0)),
      [`yard.skill ${own}.crew[0]`],
    ],
    ['beside a senior', crew(team([can(0, 1, true)], [can(0, 2)]), of(0, 2)), []],
    ['not asked for', crew(team([can(0, 1, true)], [can(0, 2)]), of(0)), []],
    [
      'more than there are seniors for',
      crew(team([can(0, 1, true)], [can(0, 2, true)]), of(0, 2)),
      [`yard.crew ${own}.crew`],
    ],
    [
      'beside somebody above who serves another demand',
      crew(team([can(0, 1, true)], [can(0, 2, true), can(1, 1)]), of(0), of(1)),
      [],
    ],
    [
      'beside somebody above who serves nothing here',
      crew(team([can(0, 1, true)], [can(0, 2, true)], [can(1, 1)]), of(0, 1, 1), of(1)),
      [],
    ],
    [
      'beside nobody who is above',
      crew(team([can(0, 2, true)], [can(0, 1), can(1, 1)]), of(0, 1, 2), of(1)),
      [`yard.skill ${own}.crew[0]`],
    ],
  ]);
  it('are told apart from skills that nobody has', () => {
    const [fault] = validate(problem(crew(team([can(0, 1, true)]), of(0))));
    expect(fault.message).toBe(
      'Only learners have laminating at level 1, and nobody of the crew can be above them',
    );
  });
});
