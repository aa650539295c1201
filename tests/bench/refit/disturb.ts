import type { Plan } from '#scheduling/model/plan.ts';
import type { Activity, Problem, Published } from '#scheduling/model/problem.ts';
import { begun } from './begun.ts';

/** The moment at which something has gone wrong: two days after the beginning. */
const NOW = 2 * 1440;
/** Near: of the next two days, as the yard's own weights have it. */
const SOON = 2 * 1440;
const NEAR_WEIGHT = 5;
/** Minutes by which a start may differ without having moved. */
const TOLERANCE = 30;
/** Every so manieth task of the next day begins so many minutes later than it was to. */
const EVERY = 4;
const LATER = 6 * 60;

export type Disturbance = 'delayed' | 'ill';

const isSoon = (start: number): boolean => start >= NOW && start < NOW + SOON;

/** The builder with the most minutes in the next two days. */
function busiest({ builders }: Problem, plan: Plan): number {
  const minutes = builders.map(() => 0);
  for (const { start, crew, segments } of plan.placements)
    if (isSoon(start))
      for (const { builder } of crew)
        minutes[builder] += segments.reduce((sum, span) => sum + span.end - span.start, 0);
  return minutes.indexOf(Math.max(...minutes));
}

/** Nobody of this calendar works from now on for two days. */
function away(problem: Problem, builder: number): Problem {
  const { calendars, builders } = problem;
  const cut = <S extends { readonly start: number; readonly end: number }>(
    spans: readonly S[],
  ): S[] =>
    spans.flatMap((span) =>
      [
        { ...span, end: Math.min(span.end, NOW) },
        { ...span, start: Math.max(span.start, NOW + SOON) },
      ].filter(({ start, end }) => start < end),
    );
  const own = calendars[builders[builder].calendar];
  return {
    ...problem,
    calendars: [
      ...calendars,
      {
        ...own,
        id: `${own.id} away`,
        shifts: cut(own.shifts),
        breaks: cut(own.breaks),
        overtime: cut(own.overtime),
      },
    ],
    builders: builders.map((one, b) =>
      b === builder ? { ...one, calendar: calendars.length } : one,
    ),
  };
}

/**
 * The problem two days into a published plan: what has begun has (`begun`), nothing else begins before
 * now, and either some tasks of the next day are late or the busiest builder is ill for two days.
 */
export function disturbed(problem: Problem, plan: Plan, kind: Disturbance): Problem {
  const placed = new Map(plan.placements.map((one) => [one.activity, one]));
  const tasks: Published['tasks'] = plan.placements
    .filter(({ start }) => start >= NOW)
    .map(({ activity, start, crew }) => ({
      activity,
      start,
      builders: crew.map(({ builder }) => builder),
      weight: isSoon(start) ? NEAR_WEIGHT : 1,
    }));
  const next = tasks.filter(({ start }) => start < NOW + SOON / 2);
  const late = new Set(next.filter((_, k) => k % EVERY === 0).map(({ activity }) => activity));
  const then = begun(problem, plan, NOW);
  const activities = then.activities.map((own, a): Activity => {
    if (own.fixed?.kind === 'frozen') return own;
    const placement = placed.get(a);
    const delayed = kind === 'delayed' && placement !== undefined && late.has(a);
    const at = delayed ? placement.start + LATER : NOW;
    return { ...own, releases: [...own.releases, { at, kind: 'now', source: 'bench' }] };
  });
  const after = {
    ...then,
    activities,
    published: { tolerance: TOLERANCE, tasks },
  };
  return kind === 'ill' ? away(after, busiest(problem, plan)) : after;
}

/** The same with nothing but the fourth rank left to make least. */
export const onlyDisturbance = (problem: Problem): Problem => ({
  ...problem,
  calendars: problem.calendars.map((one) => ({
    ...one,
    overtime: one.overtime.map((span) => ({ ...span, cost: 0 })),
  })),
  builders: problem.builders.map((one) => ({ ...one, cost: 0 })),
  slotLists: problem.slotLists.map((list) => ({
    ...list,
    slots: list.slots.map((slot) => ({ ...slot, cost: 0 })),
  })),
  activities: problem.activities.map((one) => ({
    ...one,
    modes: one.modes.map((mode) => ({ ...mode, cost: 0 })),
  })),
  refits: problem.refits.map((refit) => ({ ...refit, due: null, weight: 0 })),
  tolerances: [0, 0, 0],
});

/** Published tasks of the next two days that a plan begins at another time or with other people. */
export function nearMoves({ published }: Problem, plan: Plan): number {
  if (published === null) return 0;
  const placed = new Map(plan.placements.map((one) => [one.activity, one]));
  return published.tasks.filter(({ activity, start, builders }) => {
    if (!isSoon(start)) return false;
    const placement = placed.get(activity);
    if (placement === undefined) return true;
    const people = new Set(placement.crew.map(({ builder }) => builder));
    return (
      Math.abs(placement.start - start) > published.tolerance ||
      people.size !== builders.length ||
      builders.some((builder) => !people.has(builder))
    );
  }).length;
}
