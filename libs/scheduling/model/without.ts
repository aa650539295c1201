import type { Constraint } from './constraint.ts';
import type { Activity, LagFunctions, Mode, Problem } from './problem.ts';
import { least } from './validation/minutes.ts';

type Of<K extends Constraint['kind']> = Extract<Constraint, { kind: K }>;

const changed = <T>(list: readonly T[], index: number, change: (one: T) => T): T[] =>
  list.map((one, i) => (i === index ? change(one) : one));

const ways = (problem: Problem, change: (mode: Mode) => Mode): Problem => ({
  ...problem,
  activities: problem.activities.map((activity) => ({
    ...activity,
    modes: activity.modes.map(change),
  })),
});

/** More than all activities and holds together can ask for. */
const plenty = (problem: Problem): number =>
  1 +
  problem.holds.reduce((sum, hold) => sum + hold.amount, 0) +
  problem.activities
    .flatMap(({ modes }) => modes)
    .flatMap(({ demands, consumes }) => [...demands, ...consumes])
    .reduce((sum, { amount }) => sum + amount, 0);

/** An opening that is over before anything begins, whatever the anchor; frozen work may begin before minute 0. */
function never({ activities, horizon }: Problem): LagFunctions {
  const first = activities.reduce((min, { fixed }) => Math.min(min, fixed?.start ?? 0), 0);
  return [{ kind: 'constant', minutes: first - horizon - 1 }];
}

function withoutCalendar(problem: Problem, { builder }: Of<'calendar'>): Problem {
  const { horizon, calendars } = problem;
  const always = {
    id: `always-${String(calendars.length)}`,
    shifts: horizon > 0 ? [{ start: 0, end: horizon }] : [],
    breaks: [],
    overtime: [],
    source: '',
  };
  return {
    ...problem,
    calendars: [...calendars, always],
    builders: changed(problem.builders, builder, (one) => ({ ...one, calendar: calendars.length })),
  };
}

/** Nobody in particular is asked for, or set; it takes as long as the quickest could make it. */
function withoutCrew(problem: Problem, { activity }: Of<'crew'>): Problem {
  const own = problem.activities[activity];
  const wished = own.fixed?.kind === 'set' ? { ...own.fixed, builders: null } : own.fixed;
  const modes = own.modes.map((mode) =>
    mode.crew.length === 0
      ? mode
      : { ...mode, crew: [], duration: least(problem, mode), cleanDown: 0 },
  );
  return {
    ...problem,
    activities: changed(problem.activities, activity, (one) => ({ ...one, modes, fixed: wished })),
  };
}

/**
 * What has lost its last part moves nothing. A film that the part carried about is nowhere: left
 * where it was made it would meet dust that it was carried away from.
 */
function withoutPart(problem: Problem, { part }: Of<'part'>): Problem {
  const { activities } = problem;
  const isMoved = activities.some(
    ({ parts, modes }) => parts.includes(part) && modes.some(({ movesTo }) => movesTo !== null),
  );
  const left = activities.map((one) => one.parts.filter((other) => other !== part));
  return {
    ...problem,
    activities: activities.map((one, a) => ({
      ...one,
      parts: left[a],
      modes: left[a].length > 0 ? one.modes : one.modes.map((mode) => ({ ...mode, movesTo: null })),
    })),
    surfaces: problem.surfaces.map((one) =>
      isMoved && activities[one.activity].parts.at(0) === part
        ? { ...one, until: never(problem), coveredBy: [] }
        : one,
    ),
  };
}

/** Nothing acts on it, and it is closed: left open it would let through dust that an act kept out. */
function withoutBarrier(problem: Problem, { barrier }: Of<'barrier'>): Problem {
  const still = ways(problem, (mode) =>
    mode.barrier?.barrier === barrier ? { ...mode, barrier: null } : mode,
  );
  return {
    ...still,
    barriers: changed(problem.barriers, barrier, (one) => ({ ...one, closed: true })),
  };
}

/**
 * What has happened may be at any time from minute 0 on, as long as it was; all that it was excused
 * from it still is, the hours of its resources included, which are then not asked for.
 */
function unfrozen({ resources }: Problem, one: Activity, minutes: number): Activity {
  return {
    ...one,
    fixed: null,
    releases: one.releases.map((release) => ({ ...release, at: 0 })),
    modes: one.modes.map((mode) => ({
      ...mode,
      duration: minutes,
      crew: [],
      demands: mode.demands.filter(({ resource }) => resources[resource].calendar === null),
      splittable: false,
      cleanDown: 0,
      forbidden: mode.forbidden.map((other) => ({ ...other, spans: [] })),
      space: null,
      slots: null,
    })),
  };
}

function withoutFixed(problem: Problem, { activity }: Of<'fixed'>): Problem {
  return {
    ...problem,
    activities: changed(problem.activities, activity, (one) => {
      const { kind, start, finish } = one.fixed ?? { kind: 'set', start: null, finish: null };
      if (kind === 'set' || start === null || finish === null) return { ...one, fixed: null };
      return unfrozen(problem, one, finish - start);
    }),
  };
}

function drop(problem: Problem, constraint: Constraint): Problem {
  switch (constraint.kind) {
    case 'lag':
      return {
        ...problem,
        lags: changed(problem.lags, constraint.lag, (lag) => ({
          ...lag,
          bound: 'open',
          fns: never(problem),
        })),
      };
    case 'builder':
      return {
        ...problem,
        builders: changed(problem.builders, constraint.builder, (one) => ({
          ...one,
          unlimited: true,
        })),
      };
    case 'calendar':
      return withoutCalendar(problem, constraint);
    case 'crew':
      return withoutCrew(problem, constraint);
    case 'resource':
      return {
        ...problem,
        resources: changed(problem.resources, constraint.resource, (one) => ({
          ...one,
          steps: [{ from: 0, capacity: plenty(problem) }],
        })),
      };
    case 'hours':
      return {
        ...problem,
        resources: changed(problem.resources, constraint.resource, (one) => ({
          ...one,
          calendar: null,
        })),
      };
    case 'stock':
      return {
        ...problem,
        stocks: changed(problem.stocks, constraint.stock, (one) => ({
          ...one,
          total: plenty(problem),
        })),
      };
    case 'part':
      return withoutPart(problem, constraint);
    case 'dust':
      return {
        ...problem,
        spaces: changed(problem.spaces, constraint.from, (one) => ({
          ...one,
          dustReaches: one.dustReaches.filter(({ space }) => space !== constraint.to),
        })),
      };
    case 'surface':
      return {
        ...problem,
        surfaces: changed(problem.surfaces, constraint.surface, (one) => ({
          ...one,
          until: never(problem),
          coveredBy: [],
        })),
      };
    case 'barrier':
      return withoutBarrier(problem, constraint);
    case 'hold':
      return {
        ...problem,
        holds: changed(problem.holds, constraint.hold, (one) => ({ ...one, amount: 0 })),
      };
    case 'release':
      return {
        ...problem,
        activities: changed(problem.activities, constraint.activity, (one) => ({
          ...one,
          releases: changed(one.releases, constraint.release, (release) => ({
            ...release,
            at: 0,
          })),
        })),
      };
    case 'forbidden': {
      const own = problem.activities[constraint.activity].modes[constraint.mode];
      return ways(problem, (mode) =>
        mode === own
          ? {
              ...mode,
              forbidden: changed(mode.forbidden, constraint.forbidden, (one) => ({
                ...one,
                spans: [],
              })),
            }
          : mode,
      );
    }
    case 'slots':
      return ways(problem, (mode) =>
        mode.slots === constraint.slotList ? { ...mode, slots: null } : mode,
      );
    case 'fixed':
      return withoutFixed(problem, constraint);
    case 'choice':
    case 'horizon':
      return problem;
  }
}

/**
 * The problem without some of its constraints, every index as before. Where a constraint cannot be
 * taken away alone, what leans on it goes too, so that whatever was a plan is one still; but for who
 * does the work and in which slot, how long it takes and where it pauses, as far as the
 * constraint said so, and for work that began before minute 0, which, not frozen, has to be done.
 * Choices and the horizon are what the question is about and stay.
 */
export const without = (problem: Problem, constraints: readonly Constraint[]): Problem =>
  constraints.reduce(drop, problem);

/** Whether `without` can take it away. */
export const isDroppable = ({ kind }: Constraint): boolean =>
  kind !== 'choice' && kind !== 'horizon';
