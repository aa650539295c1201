import type { Lag } from '#scheduling/model/problem.ts';
import { duration } from '../../compile/trace/rows.ts';
import type { CauseSite } from './cause.ts';
import { extremes } from '../reading/extremes.ts';
import { spanOf, type Reading } from '../reading/reading.ts';
import type { Cure } from './sentences.ts';

const half = (value: number): number => Math.round(value * 2) / 2;

/** How long a film has taken to a minute, and coldest and warmest of where it was laid until then. */
function cureUntil(reading: Reading, lag: Lag, until: number): Cure | null {
  const { rows, problem, placed, films } = reading;
  const task = rows.tasks.get(problem.activities[lag.from].id);
  const placement = placed[lag.from];
  if (task === undefined || task.material === null || placement === undefined) return null;
  const span = spanOf(reading, task, placement);
  const laid = lag.fromAnchor === 'start' ? span.start : span.finish;
  const { low, high } = extremes(films.climate(task.space).surface.expected, laid, until);
  return {
    material: rows.materials.get(task.material)?.name ?? task.material,
    space: rows.spaceName(task.space),
    low: half(low),
    high: half(high),
    takes: duration(Math.max(0, until - laid)),
  };
}

/** A reading as causes are looked up in, with the climates behind its films. */
export const siteOf = (reading: Reading): CauseSite => ({
  problem: reading.problem,
  map: reading.map,
  placed: reading.placed,
  cure: (lag, until) => cureUntil(reading, lag, until),
});
