import { restrict } from '../../model/restrict.ts';
import type { Interval, Mode, Problem } from '../../model/problem.ts';

/** Some refits of a problem by themselves: every plan of the whole one, less the other work, is a plan of it. */
export interface Part {
  /** Its horizon is shorter where nothing has to be finished later. */
  readonly problem: Problem;
  /** Its activities by those of the whole problem. */
  readonly activities: readonly number[];
}

const spacesOf = ({ space, movesTo }: Mode): number[] =>
  [space, movesTo].flatMap((one) => one ?? []);

const cut = <T extends Interval>(spans: readonly T[], horizon: number): T[] =>
  spans
    .filter(({ start }) => start < horizon)
    .map((span) => ({ ...span, end: Math.min(span.end, horizon) }));

/**
 * The problem up to an earlier horizon: what is later of hours and slots is left out. Readers of lags
 * take any value beyond a horizon for never.
 */
function shortened(problem: Problem, horizon: number): Problem {
  return {
    ...problem,
    horizon,
    builders: problem.builders.map((builder) => ({ ...builder, cost: 0 })),
    calendars: problem.calendars.map((calendar) => ({
      ...calendar,
      shifts: cut(calendar.shifts, horizon),
      breaks: cut(calendar.breaks, horizon),
      overtime: cut(calendar.overtime, horizon).map((span) => ({ ...span, cost: 0 })),
    })),
    slotLists: problem.slotLists.map((list) => ({
      ...list,
      slots: list.slots.filter(({ start }) => start < horizon),
    })),
    refits: problem.refits.map((refit) => ({ ...refit, due: null, handovers: [] })),
  };
}

/**
 * The work of some refits without the others', which leaves more room for it, except for work that
 * may make room: that moves parts, covers surfaces or works barriers which matter here stays, and
 * what has happened stays. Money and what was published do not matter here. Where nothing else stays,
 * plans are asked for in which all of it is finished by `until`.
 */
export function partOf(problem: Problem, refits: readonly number[], until: number): Part {
  const { activities, spaces, surfaces } = problem;
  const kept = new Set<number>();
  activities.forEach(({ refit, fixed }, a) => {
    if (fixed?.kind === 'frozen' || (refit !== null && refits.includes(refit))) kept.add(a);
  });
  for (let before = -1; before !== kept.size;) {
    before = kept.size;
    const own = [...kept].map((a) => activities[a]);
    const parts = new Set(own.flatMap((one) => one.parts));
    const where = new Set(own.flatMap(({ modes }) => modes.flatMap(spacesOf)));
    const covers = new Set(
      surfaces.flatMap(({ activity, coveredBy }) => (kept.has(activity) ? coveredBy : [])),
    );
    const doors = new Set(
      own.flatMap(({ modes }) =>
        modes.flatMap(({ air, space }) =>
          air === 'dusty' && space !== null
            ? spaces[space].dustReaches.flatMap((to) =>
                to.barrier !== null && where.has(to.space) ? [to.barrier] : [],
              )
            : [],
        ),
      ),
    );
    activities.forEach((activity, a) => {
      const makesRoom =
        covers.has(a) ||
        activity.modes.some(
          ({ barrier, movesTo }) =>
            (barrier !== null && doors.has(barrier.barrier)) ||
            (movesTo !== null && activity.parts.some((part) => parts.has(part))),
        );
      if (makesRoom) kept.add(a);
    });
  }
  const { problem: part } = restrict(problem, kept);
  const others = part.activities.some(
    ({ refit, fixed }) => fixed?.kind !== 'frozen' && (refit === null || !refits.includes(refit)),
  );
  const latest = part.activities.reduce((most, { fixed, modes }) => {
    const freed = modes.reduce((after, { cleanDown }) => Math.max(after, cleanDown), 0);
    return Math.max(most, until + freed, (fixed?.finish ?? 0) + freed, (fixed?.start ?? 0) + 1);
  }, until);
  return {
    activities: activities.flatMap((_, a) => (kept.has(a) ? [a] : [])),
    problem: shortened(part, others ? problem.horizon : Math.min(problem.horizon, latest)),
  };
}
