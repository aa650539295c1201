import type {
  Activity,
  Hold,
  Interval,
  Mode,
  OpenSurface,
  Problem,
} from '#scheduling/model/problem.ts';

type History = Pick<Problem, 'activities' | 'resources' | 'spaces' | 'surfaces' | 'holds'>;

/** Known at once, or as long as it may be: to the end of the plan. */
function endOf(
  surface: OpenSurface | undefined,
  finish: number,
  activities: readonly Activity[],
): number {
  if (surface === undefined) return finish;
  const covers = surface.coveredBy.flatMap((cover) => activities[cover].fixed?.start ?? []);
  if (covers.length > 0) return Math.min(...covers);
  if (surface.coveredBy.length > 0) return Infinity;
  const [until] = surface.until;
  return until.kind === 'constant' ? finish + until.minutes : Infinity;
}

const isFrozen = ({ fixed }: Activity): boolean => fixed?.kind === 'frozen';

interface Film {
  readonly space: number;
  readonly start: number;
  readonly end: number;
}

function openFilms({ activities, surfaces }: History): Film[] {
  return activities.flatMap((activity, a) => {
    const [mode] = activity.modes;
    const surface = surfaces.find((one) => one.activity === a);
    const open = mode.air === 'wet' || surface !== undefined;
    if (!isFrozen(activity) || !open || mode.space === null) return [];
    const { start, finish } = activity.fixed ?? {};
    const end = endOf(surface, finish ?? 0, activities);
    return [{ space: mode.space, start: start ?? 0, end }];
  });
}

/** Whether begun dusty work reaches an open film of begun work. */
function spoils(activity: Activity, mode: Mode, films: readonly Film[], spaces: History['spaces']) {
  if (mode.air !== 'dusty' || mode.space === null) return false;
  const { dustReaches, settling } = spaces[mode.space];
  const start = activity.fixed?.start ?? 0;
  const end = (activity.fixed?.finish ?? 0) + settling;
  return films.some(
    (film) =>
      dustReaches.some(({ space }) => space === film.space) && start < film.end && film.start < end,
  );
}

/** Takes parts that no earlier begun work has at the same time; the rest is left out. */
function freeParts(): (activity: Activity) => number[] {
  const spans = new Map<number, Interval[]>();
  return ({ parts, fixed }) => {
    const span = { start: fixed?.start ?? 0, end: fixed?.finish ?? 0 };
    return parts.filter((part) => {
      const known = spans.get(part) ?? [];
      if (known.some(({ start, end }) => span.start < end && start < span.end)) return false;
      spans.set(part, [...known, span]);
      return true;
    });
  };
}

/** Takes what has not been taken yet; the rest is left out. */
function onceOnly<T>(): (list: readonly T[]) => T[] {
  const seen = new Set<T>();
  return (list) =>
    list.filter((one) => {
      if (seen.has(one)) return false;
      seen.add(one);
      return true;
    });
}

/**
 * What has happened may break the plan's rules among itself (somebody sanded beside wet
 * resin; seven people in a room for six; two crews on one panel; a mould that two parts are in).
 * That cannot be planned away, and must not make every plan impossible: such dust is no longer
 * counted as dust, and begun work asks for no more room, tools, parts, holds and barriers than
 * there are.
 */
export function excuseBegun(history: History): { activities: Activity[]; holds: Hold[] } {
  const { activities, resources, spaces } = history;
  const used = resources.map(() => 0);
  // Of what there is at every moment, so that a lent tool cannot make the past impossible.
  const least = resources.map(({ steps }) => Math.min(...steps.map(({ capacity }) => capacity)));
  const fits = ({ resource, amount }: { resource: number; amount: number }): boolean => {
    if (used[resource] + amount > least[resource]) return false;
    used[resource] += amount;
    return true;
  };
  const films = openFilms(history);
  const builderOnce = onceOnly<number>();
  const partsOnce = freeParts();
  const barrierOnce = onceOnly<number>();
  const excused = activities.map((activity) => {
    if (!isFrozen(activity) || activity.fixed === null) return activity;
    const [mode] = activity.modes;
    const builders = builderOnce(activity.fixed.builders ?? []);
    const acts = mode.barrier === null || barrierOnce([mode.barrier.barrier]).length > 0;
    const parts = partsOnce(activity);
    return {
      ...activity,
      parts,
      modes: [
        {
          ...mode,
          crew: builders.length === 0 ? [] : [{ ...mode.crew[0], count: builders.length }],
          demands: mode.demands.filter(fits),
          air: spoils(activity, mode, films, spaces) ? ('clean' as const) : mode.air,
          barrier: acts ? mode.barrier : null,
          movesTo: parts.length === 0 ? null : mode.movesTo,
        },
      ],
      fixed: { ...activity.fixed, builders },
    };
  });
  const holds = history.holds.filter((hold) => !isFrozen(activities[hold.activity]) || fits(hold));
  return { activities: excused, holds };
}
