import { celsiusAt, type TemperatureSeries } from '#cure/clock/series.ts';
import { reachedAt } from '#cure/clock/cure-clock.ts';
import type { Milestone } from '#cure/material/material.ts';
import { safeOf } from '#planning/compile/films/refusals.ts';
import { becoming } from '#planning/decode/reading/film.ts';
import type { WantedAlarm } from './facts.ts';
import { AHEAD_DAYS, type OpenFilm, type Sight } from './sight.ts';
import { dueAt, type SeenWindow, type Site } from './site.ts';

const MINUTE = 60_000;
/** Climates have a moment every so many minutes. */
const STEP = 10;
/** So long before the cold, as far as it is foreseen: time to close a door and bring a heater. */
const COLD_MINUTES = 60;
/** A door that is opened makes no cold night (common practice, no source). */
const SHORTEST_MINUTES = 30;

interface Cold {
  readonly from: number;
  /** Infinity: beyond what is looked at. */
  readonly until: number;
  readonly lowest: number;
}

/** The cold that a film meets now, or next, of what lasts; its beginning where it is in it already. */
function coldOf(
  series: TemperatureSeries,
  minimum: number,
  [laid, now, until, ahead]: readonly [number, number, number, number],
): Cold | null {
  const isCold = (minute: number): boolean => celsiusAt(series, minute) < minimum;
  let from: number | null = null;
  let lowest = Infinity;
  for (let minute = laid; minute <= Math.min(until, ahead); minute += STEP) {
    if (isCold(minute)) {
      from ??= minute;
      lowest = Math.min(lowest, celsiusAt(series, minute));
      continue;
    }
    if (from !== null && minute > now && minute - from >= SHORTEST_MINUTES) {
      return { from, until: minute, lowest };
    }
    from = null;
    lowest = Infinity;
  }
  return from === null ? null : { from, until: Infinity, lowest };
}

interface Awaited {
  readonly milestone: Milestone;
  readonly until: number;
}

/** When cold does the film no harm any more; of one that is still being laid nobody knows. */
function safeBy(film: OpenFilm, { films, frame }: Sight): Awaited[] {
  const material = films.material(film.material);
  const milestone = safeOf(material);
  if (film.finishedAt === null || material.milestones[milestone] === undefined) return [];
  const clock = films.clock(film.material, milestone, 'open', [film.space]);
  const until = reachedAt(clock, frame.minuteOf(film.finishedAt)) ?? Infinity;
  return [{ milestone, until }];
}

/** The last that a film has still to become, for what waits for it or to be safe; null: nothing any more. */
function awaitedOf(
  film: OpenFilm,
  windows: readonly SeenWindow[],
  site: Site,
  sight: Sight,
): Awaited | null {
  const { frame } = sight;
  const waits = windows.flatMap(({ linkId, opensAt }): Awaited[] => {
    const opens = site.links.get(linkId)?.opens ?? null;
    if (opens?.kind !== 'milestone') return [];
    const until = opensAt === null ? Infinity : frame.minuteOf(opensAt);
    return [{ milestone: opens.milestone, until }];
  });
  const now = frame.minuteOf(site.now.toISOString());
  return [...waits, ...safeBy(film, sight)].reduce<Awaited | null>(
    (last, one) => (one.until > (last?.until ?? now) ? one : last),
    null,
  );
}

/** Films that stand, or will stand, colder than their material cures at, while something waits for them. */
export function filmAlarms(site: Site, films: readonly OpenFilm[], sight: Sight): WantedAlarm[] {
  const { frame } = sight;
  const now = frame.minuteOf(site.now.toISOString());
  const ahead = now + AHEAD_DAYS * 1440;
  const iso = (minute: number): string => new Date(frame.isoAt(minute)).toISOString();
  const windowsFrom = Map.groupBy(site.windows, ({ from }) => from);
  return films.flatMap((film): WantedAlarm[] => {
    const { task, space } = film;
    const awaited = awaitedOf(film, windowsFrom.get(task.id) ?? [], site, sight);
    if (awaited === null) return [];
    const material = sight.films.material(film.material);
    const minimum = material.limits.minimumC.value;
    const surface = sight.films.surface([space]).expected;
    const laid = frame.minuteOf(film.startedAt);
    const cold = coldOf(surface, minimum, [laid, now, awaited.until, ahead]);
    if (cold === null) return [];
    return [
      {
        key: `too-cold:${task.id}`,
        taskId: task.id,
        dueAt: dueAt(site, Date.parse(iso(cold.from)) - COLD_MINUTES * MINUTE),
        audience: site.people(site.holders(task.id), task.crew, site.foremen),
        facts: {
          kind: 'too-cold',
          what: site.what(task),
          place: site.rows.spaceName(space),
          material: material.name,
          minimumC: minimum,
          celsius: Math.round(cold.lowest * 10) / 10,
          from: iso(cold.from),
          until: cold.until === Infinity ? null : iso(cold.until),
          awaited: becoming[awaited.milestone],
          spoils: material.limits.belowMinimum === 'spoils',
        },
      },
    ];
  });
}
