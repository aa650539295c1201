import type { Arc } from '../search/crew/arc.ts';
import type { Compiled, CompiledActivity, CompiledMode } from '../search/crew/compiled.ts';
import type { CrewOption } from '../search/crew/crews.ts';
import { earliestFit, startFor, type Fit } from '../search/crew/fit.ts';
import type { WorkTable } from '../search/crew/spans.ts';
import type { State } from '../search/crew/state.ts';
import { calendarLatest } from './latest.ts';

/** A mode with a crew, or without where nobody is needed: one way to do an activity alone in the yard. */
export interface Way {
  readonly mode: CompiledMode;
  readonly option: CrewOption | null;
  /** Minutes of the slowest crew with the same shared time; Infinity where unknown. */
  readonly longest: number;
}

/**
 * Relaxes a crew to what the rules demand: where breaks are relieved the rules let work
 * begin in a break, though the search never does.
 */
const relaxed = (mode: CompiledMode, option: CrewOption): CrewOption =>
  mode.relieved && !mode.pauses ? { ...option, table: option.relieved } : option;

/** Pot life and the like: every start that a slow crew could take, a quick one can take too. */
const quickIsEnough = (arc: Arc): boolean =>
  arc.choice < 0 && !arc.open && !arc.fromFinish && arc.toFinish;

/** The activity with only those of its own lags that may be argued from. */
export const forBounds = (activity: CompiledActivity): CompiledActivity =>
  activity.own.every(quickIsEnough)
    ? activity
    : { ...activity, own: activity.own.filter(quickIsEnough) };

/**
 * The ways that decide how early or late an activity can be. Of crews with the same shared
 * time and no frozen work the quickest is enough: it can take every start that a slower one
 * can, and ends no later.
 */
export function waysOf(compiled: Compiled, frozen: State, activity: CompiledActivity): Way[] {
  const ways: Way[] = [];
  for (const mode of activity.modes) {
    const fits = mode.uses.every((use) =>
      compiled.problem.resources[use.resource].steps.some((step) => step.capacity >= use.amount),
    );
    if (!fits) continue;
    if (mode.crews === null) {
      ways.push({ mode, option: null, longest: mode.minutes });
      continue;
    }
    if (!mode.complete) {
      // Crews were left out: nothing but the least duration is certain.
      const alone = {
        ...mode,
        crews: null,
        minutes: mode.least,
        pauses: false,
        uses: [],
        dusty: false,
      };
      ways.push({ mode: alone, option: null, longest: Infinity });
      continue;
    }
    const shared = new Map<WorkTable, Way>();
    for (const option of mode.crews) {
      const way = { mode, option: relaxed(mode, option), longest: option.minutes };
      if (option.builders.some((b) => frozen.busy[b].count > 0)) {
        ways.push(way);
        continue;
      }
      const known = shared.get(option.table);
      const longest = Math.max(option.minutes, known?.longest ?? 0);
      const quicker = known?.option && known.option.minutes <= option.minutes ? known : way;
      shared.set(option.table, { ...quicker, longest });
    }
    ways.push(...shared.values());
  }
  return ways;
}

const fit: Fit = { start: 0, finish: 0 };

/** Earliest start and earliest finish, each over all ways; Infinity where there is none. */
export function earliestOf(
  compiled: Compiled,
  frozen: State,
  activity: CompiledActivity,
  ways: readonly Way[],
  from: number,
  leastFinish: number,
  out: Fit,
): void {
  out.start = Infinity;
  out.finish = Infinity;
  let ending = Infinity;
  for (const { mode, option, longest } of ways) {
    if (!earliestFit(compiled, frozen, activity, mode, option, from, 0, compiled.horizon + 1, fit))
      continue;
    out.start = Math.min(out.start, fit.start);
    out.finish = Math.min(out.finish, fit.finish);
    if (fit.finish >= leastFinish) ending = -Infinity;
    else
      ending = Math.min(
        ending,
        longest === Infinity
          ? -Infinity
          : startFor(mode, option?.table ?? compiled.anyTime, longest, leastFinish),
      );
  }
  out.finish = Math.max(out.finish, leastFinish);
  out.start = Math.max(out.start, ending);
}

/** Latest start over all ways; -1 where there is none. */
export function latestOf(
  compiled: Compiled,
  ways: readonly Way[],
  start: number,
  finish: number,
): number {
  let latest = -1;
  for (const { mode, option } of ways) {
    const table = option === null ? compiled.anyTime : option.table;
    const minutes = option === null ? mode.minutes : option.minutes;
    latest = Math.max(latest, calendarLatest(mode, table, minutes, start, finish));
  }
  return latest;
}
