import { dewPoint, saturationHPa, vapourHPa } from '../air/dew-point.ts';
import { correctionOf } from './corrected.ts';
import { isOn } from './regimes.ts';
import type { ClimateSettings, SpaceReading } from './settings.ts';
import type { Grid } from './track.ts';

/** Air drier than that has no dew point that anybody could use. */
const DRIEST_PERCENT = 1;

interface Moisture {
  readonly humidity: Float64Array;
  readonly dewPointC: Float64Array;
}

/**
 * Humidity of air of the temperatures `air` on a grid. Vapour that comes in from the outdoors
 * keeps its pressure when the air is warmed, so its relative humidity falls; what would be
 * more than 100 % has condensed. A dehumidifier keeps it at most so humid. Readings correct the
 * vapour pressure as they do temperatures (at a reading the relative humidity is that read to
 * within what vapour bends between two points). Null: nothing is known.
 */
export function moistureOf(
  settings: ClimateSettings,
  outdoorHPa: ((minute: number) => number) | null,
  air: Float64Array,
  readings: readonly SpaceReading[],
  grid: Grid,
  tau: number,
): Moisture | null {
  const { humidity: source, changes } = settings;
  if (source === null || (source.kind === 'outdoors' && outdoorHPa === null)) return null;
  const { first, step, n } = grid;
  const dryers = changes.filter(({ kind }) => kind === 'dehumidifier');
  const driest = (minute: number): number =>
    dryers.reduce(
      (least, dryer) => (isOn(dryer, minute) ? Math.min(least, dryer.percent ?? 100) : least),
      100,
    );
  const full = air.map(saturationHPa);
  const vapour = full.map((most, k) => {
    const minute = first + k * step;
    const free =
      source.kind === 'held'
        ? (source.percent / 100) * most
        : (outdoorHPa?.(minute) ?? 0) + source.addsHPa;
    return Math.min(free, dryers.length === 0 ? most : (driest(minute) / 100) * most);
  });
  const warmth = (minute: number): number => {
    const k = Math.min(n - 2, Math.max(0, Math.floor((minute - first) / step)));
    const share = (minute - first) / step - k;
    return air[k] + share * (air[k + 1] - air[k]);
  };
  const observed = readings.flatMap(({ of, at, minutes, celsius, humidity }) =>
    humidity === null
      ? []
      : [
          {
            at,
            minutes,
            value: vapourHPa(of === 'air' ? celsius : warmth(at + minutes / 2), humidity),
          },
        ],
  );
  const { shift } = correctionOf(vapour, observed, grid, tau);
  const humidity = full.map((most, k) =>
    Math.max(DRIEST_PERCENT, Math.min(100, (100 * (vapour[k] + shift[k])) / most)),
  );
  return { humidity, dewPointC: humidity.map((rh, k) => dewPoint(air[k], rh)) };
}
