import { cureClock, latestStart, type CureClock } from '../clock/cure-clock.ts';
import type { Span, TemperatureSeries } from '../clock/series.ts';
import type { AirSeries, SpaceClimate } from '../climate/space-climate.ts';
import type { CureMaterial, Milestone } from '../material/material.ts';
import { clipped, lastBy, meeting, stretches } from './forbidden-stretches.ts';

const HOUR = 60;

function tooHot({ limits }: CureMaterial, { air, surface }: SpaceClimate): Span[] {
  const warm = air.warm === surface.warm ? [air.warm] : [air.warm, surface.warm];
  return warm.flatMap((series) => stretches(series, limits.maximumC.value, 'above'));
}

/** Stretches of air too humid, or of a surface, as cold as it may be, too near the dew point. */
function tooDamp({ limits }: CureMaterial, climate: SpaceClimate): Span[] {
  const { humidity, dewPointC } = climate;
  const { cold } = climate.surface;
  const onGrid = (values: AirSeries): TemperatureSeries => ({
    ...climate.air.expected,
    shape: 'lines',
    celsius: values,
  });
  const out: Span[] = [];
  if (limits.maximumHumidity !== null && humidity !== null)
    out.push(...stretches(onGrid(humidity), limits.maximumHumidity.value, 'above'));
  if (limits.minimumDewMarginC !== null && dewPointC !== null) {
    const margin = new Float64Array(cold.celsius.length);
    for (let k = 0; k < margin.length; k++) margin[k] = cold.celsius[k] - dewPointC[k];
    out.push(...stretches(onGrid(margin), limits.minimumDewMarginC.value, 'below'));
  }
  return out;
}

/**
 * Starts that a material forbids to work of `workMinutes` in a space, in 0..horizon, sorted and
 * disjoint, right to the minute for the lines of the climate. Work may not begin where
 * - it would meet air or a surface that may be warmer than the maximum;
 * - for a material that spoils, its film would meet a surface that may be colder than the
 *   minimum, from its first minute until the last of it has reached the milestone `safe`;
 * - the material asks for preheating, and the air may have been colder than the minimum in
 *   the hours before (before its beginning a climate is as at its beginning);
 * - it asks for heat to be held, and the air may be colder during the work or those hours after;
 * - it refuses damp air, and that, or a surface too near the dew point, would be met from the
 *   first minute until `safe`: standards for coatings ask for the margin while it is applied and
 *   dries (ISO 8502-4, as summarised by a trade guide, read); until when a film can be hurt is
 *   common practice, no source. Through the work only, where the material has no times for `safe`.
 *   The humidity is that of the expected air, since no band of it is known. Nothing is forbidden
 *   where it is not known at all: say that where it is asked for.
 * `safeClock` is that of `safe` for the surface, where it has been made already. Throws
 * `cure.missing` for a spoiling material without times for `safe`.
 */
export function forbiddenStarts(
  material: CureMaterial,
  climate: SpaceClimate,
  safe: Milestone,
  workMinutes: number,
  horizon: number,
  safeClock: () => CureClock = () => cureClock(material, safe, 'open', climate.surface),
): Span[] {
  const { limits } = material;
  const minimum = limits.minimumC.value;
  const work = Math.max(1, workMinutes);
  let clock: CureClock | null = null;
  const untilSafe = (bad: Span): Span => {
    const { start, end } = meeting(bad, workMinutes);
    if (start === -Infinity) return { start, end };
    clock ??= safeClock();
    const laid = latestStart(clock, lastBy(bad.start));
    return { start: laid === null ? -Infinity : laid - workMinutes + 1, end };
  };

  const found = tooHot(material, climate).map((hot) => meeting(hot, work));
  if (limits.belowMinimum === 'spoils')
    found.push(...stretches(climate.surface.cold, minimum, 'below').map(untilSafe));
  if (limits.preheatHours !== null || limits.holdHours !== null) {
    const before = (limits.preheatHours?.value ?? 0) * HOUR;
    const after = limits.holdHours === null ? 0 : work + limits.holdHours.value * HOUR;
    for (const cold of stretches(climate.air.cold, minimum, 'below')) {
      found.push(meeting({ start: cold.start, end: cold.end + before }, after));
    }
  }
  if (limits.dampAir === 'refuse') {
    const timed = material.milestones[safe] !== undefined;
    for (const damp of tooDamp(material, climate))
      found.push(timed ? untilSafe(damp) : meeting(damp, work));
  }
  return clipped(found, horizon);
}
