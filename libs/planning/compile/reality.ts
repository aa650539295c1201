import type { Activity, Mode, OpenSurface, Problem } from '#scheduling/model/problem.ts';

type Parts = Pick<Problem, 'activities' | 'resources' | 'spaces' | 'surfaces'>;

const endOf = (surface: OpenSurface | undefined, finish: number): number =>
  surface?.until.kind === 'constant' ? finish + surface.until.minutes : finish;

/**
 * What has happened may break the plan's rules among itself (somebody sanded beside wet
 * resin; seven people in a room for six). That cannot be planned away, and must not make
 * every plan impossible: such dust is no longer counted as dust, and begun work asks for no
 * more room or tools than there are.
 */
export function excuseBegun({ activities, resources, spaces, surfaces }: Parts): Activity[] {
  const used = resources.map(() => 0);
  const open = activities.flatMap((activity, a) => {
    const [mode] = activity.modes;
    if (activity.fixed?.kind !== 'frozen' || mode.air !== 'wet' || mode.space === null) return [];
    const surface = surfaces.find((one) => one.activity === a);
    return [
      {
        space: mode.space,
        start: activity.fixed.start ?? 0,
        end: endOf(surface, activity.fixed.finish ?? 0),
      },
    ];
  });
  const spoilt = (activity: Activity, mode: Mode): boolean => {
    if (mode.air !== 'dusty' || mode.space === null) return false;
    const { dustReaches, settling } = spaces[mode.space];
    const start = activity.fixed?.start ?? 0;
    const end = (activity.fixed?.finish ?? 0) + settling;
    return open.some(
      (film) => dustReaches.includes(film.space) && start < film.end && film.start < end,
    );
  };
  const taken = new Set<number>();
  return activities.map((activity) => {
    if (activity.fixed?.kind !== 'frozen') return activity;
    const [mode] = activity.modes;
    const demands = mode.demands.filter(({ resource, amount }) => {
      if (used[resource] + amount > resources[resource].steps[0].capacity) return false;
      used[resource] += amount;
      return true;
    });
    const builders = (activity.fixed.builders ?? []).filter((builder) => !taken.has(builder));
    for (const builder of builders) taken.add(builder);
    const crew = builders.length === 0 ? [] : [{ ...mode.crew[0], count: builders.length }];
    const air = spoilt(activity, mode) ? 'clean' : mode.air;
    return {
      ...activity,
      modes: [{ ...mode, crew, demands, air }],
      fixed: { ...activity.fixed, builders },
    };
  });
}
