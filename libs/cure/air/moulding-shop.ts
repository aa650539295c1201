import { celsiusAt, type TemperatureSeries } from '../clock/series.ts';
import type { SpaceClimate } from '../climate/space-climate.ts';

/**
 * What a classification society asks of a moulding shop: Iranian Classification Society, Rules
 * for FRP Ships (2014), ch. 3 sec. 1, 102 (read): so warm from so long before laminating on,
 * within so many degrees either way in 24 hours, the air neither too humid nor, for spraying,
 * too dry. Other rules say 15 or 16 degrees; a material's own sheet comes first.
 */
const MOULDING_SHOP = {
  minimumC: 18,
  hoursBefore: 24,
  swingC: 3,
  maximumHumidity: 80,
  minimumHumidityToSpray: 40,
} as const;

const HOUR = 60;

/** Lines are at their least and most at their points, or at an end. */
function valuesOf(series: TemperatureSeries, from: number, to: number): number[] {
  const { start, step } = series;
  const out = [celsiusAt(series, from), celsiusAt(series, to)];
  for (let at = start + Math.ceil((from - start) / step) * step; at < to; at += step)
    out.push(celsiusAt(series, at));
  return out;
}

/** In what a space, as it is expected, falls short of a moulding shop at a minute; empty: in nothing. */
export function mouldingShopReasons(
  climate: SpaceClimate,
  minute: number,
  sprayed: boolean,
): string[] {
  const { minimumC, hoursBefore, swingC, maximumHumidity, minimumHumidityToSpray } = MOULDING_SHOP;
  const day = valuesOf(climate.air.expected, minute - hoursBefore * HOUR, minute);
  const [coldest, warmest] = [Math.min(...day), Math.max(...day)];
  const out: string[] = [];
  if (coldest < minimumC)
    out.push(
      `${coldest.toFixed(1)} °C in the ${hoursBefore} hours before, less than ${minimumC} °C`,
    );
  if (warmest - coldest > 2 * swingC) {
    const swing = ((warmest - coldest) / 2).toFixed(1);
    out.push(
      `a swing of ±${swing} degrees in the ${hoursBefore} hours before, more than ±${swingC}`,
    );
  }
  if (climate.humidity === null) return [...out, 'the humidity is not known'];
  const rh = celsiusAt(
    { ...climate.air.expected, shape: 'lines', celsius: climate.humidity },
    minute,
  );
  if (rh > maximumHumidity) out.push(`${rh.toFixed(0)} % humidity, more than ${maximumHumidity} %`);
  if (sprayed && rh < minimumHumidityToSpray)
    out.push(`${rh.toFixed(0)} % humidity, less than ${minimumHumidityToSpray} % for spraying`);
  return out;
}
