import { expect } from 'vitest';
import { check } from '../../../checker/check.ts';
import type { SearchState } from '../../../model/plan.ts';
import type { Calendar, Problem } from '../../../model/problem.ts';
import { builder, problem } from '../../../testing/make.ts';
import { createWhole } from '../whole.ts';

export const always: Calendar = {
  id: 'always',
  shifts: [{ start: 0, end: 60 }],
  breaks: [],
  overtime: [],
  source: 'always',
};

export const refit = {
  id: 'boat',
  release: 0,
  due: null,
  handovers: [],
  weight: 1,
  source: 'boat',
};

/** An hour, Ada alone at all times, one boat without a promise. */
export const hour = (given: Partial<Problem>): Problem =>
  problem({
    horizon: 60,
    calendars: [always],
    builders: [builder('Ada')],
    refits: [refit],
    ...given,
  });

export const decide = (of: Problem): SearchState => {
  const state = createWhole(of, 1, null, null).step(50_000);
  expect(state.done).toBe(true);
  if (state.plan) expect(check(of, state.plan)).toEqual([]);
  return state;
};

/** The least values of the four ranks, or the verdict that there is no plan. */
export const best = (of: Problem): number[] | string => {
  const { status, bounds } = decide(of);
  return status === 'optimal' ? bounds.map(({ bound }) => bound) : status;
};

export const starts = (of: Problem): number[] =>
  decide(of).plan?.placements.map(({ start }) => start) ?? [];
