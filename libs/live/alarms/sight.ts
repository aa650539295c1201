import { takenTo } from '#planning/compile/site/parts.ts';
import { around, type Around } from '#planning/questions/around.ts';
import type { Task } from '#planning/workload/workload.ts';
import type { Yard } from '#planning/yard/yard.ts';
import type { Site } from './site.ts';

/** Climates and materials, of what was laid lately and may still have to cure. */
export type Sight = Around;

/** A film that was or is being laid, and where its part is by now. */
export interface OpenFilm {
  readonly task: Task;
  readonly material: string;
  readonly space: string;
  readonly startedAt: string;
  /** Null: it is still being laid. */
  readonly finishedAt: string | null;
}

const DAY_MS = 86_400_000;
/** No film that cures at all is open for longer (common practice, no source). */
const BACK_DAYS = 14;
/** Weather is not forecast with any worth beyond that. */
export const AHEAD_DAYS = 3;

/** Wet work that is under way, or was done within the last fortnight and still counts. */
export function openFilms({ yard, workload, now }: Site): OpenFilm[] {
  const since = now.getTime() - BACK_DAYS * DAY_MS;
  const laid = workload.tasks.filter(
    ({ material, state, startedAt }) =>
      material !== null &&
      (state === 'working' || state === 'done') &&
      startedAt !== null &&
      Date.parse(startedAt) > since,
  );
  if (laid.length === 0) return [];
  const moved = takenTo(workload.tasks);
  const reckoned = new Set(
    yard.spaces
      .filter(({ climate, skin }) => {
        const byWeather = climate.kind === 'outdoors' || (skin?.outdoorShare ?? 0) > 0;
        return !byWeather || yard.outdoor !== null;
      })
      .map(({ id }) => id),
  );
  return laid.flatMap((task): OpenFilm[] => {
    const { material, startedAt, finishedAt, state, parts, partId, space: own } = task;
    if (material === null || startedAt === null) return [];
    const space = parts.length === 0 ? own : (moved.get(partId) ?? own);
    if (!reckoned.has(space) || !reckoned.has(own)) return [];
    const finished = state === 'done' ? finishedAt : null;
    return [{ task, material, space, startedAt, finishedAt: finished }];
  });
}

/** The last of a yard: reports of work follow one another quickly, and change no climate. */
const seen = new WeakMap<Yard, { readonly of: string; readonly sight: Sight }>();

/** From before the first of the films was laid until some days ahead. */
export function sightOf({ yard, now }: Site, films: readonly OpenFilm[]): Sight {
  const first = Math.min(now.getTime(), ...films.map(({ startedAt }) => Date.parse(startedAt)));
  const from = new Date(Math.floor(first / DAY_MS) * DAY_MS).toISOString();
  const days = Math.ceil((now.getTime() - Date.parse(from)) / DAY_MS) + AHEAD_DAYS;
  const spaces = [...new Set(films.flatMap(({ space, task }) => [space, task.space]))].sort();
  const materials = [...new Set(films.map(({ material }) => material))].sort();
  const of = JSON.stringify([from, days, spaces, materials]);
  const known = seen.get(yard);
  if (known?.of === of) return known.sight;
  const sight = around(yard, from, days, { spaces, materials });
  seen.set(yard, { of, sight });
  return sight;
}
