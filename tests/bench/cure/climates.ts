import type { TemperatureSeries } from '#cure/clock/series.ts';
import { random } from '#kernel/random.ts';

export const DAY = 1440;
export const DAYS = 90;
export const HORIZON = DAYS * DAY;
const STEP = 10;

/** Degrees at a minute, and what the weather adds on that day. */
type Climate = (minute: number, weather: number) => number;

const daily = (minute: number): number => Math.sin((2 * Math.PI * (minute - 540)) / DAY);

/** Made up: a tent heated by day, an unheated shed, and one that freezes at night. */
const CLIMATES: Readonly<Record<string, Climate>> = {
  tent: (minute) => {
    const hour = (minute % DAY) / 60;
    const warm = Math.min(1, Math.max(0, Math.min((hour - 6) / 1.5, (20 - hour) / 3)));
    return 12 + 8 * warm;
  },
  shed: (minute, weather) => 16 + 4 * daily(minute) + weather,
  frost: (minute, weather) => 8 + 6 * daily(minute) + weather,
};

export const climates = Object.keys(CLIMATES);

/** Ninety days of one, lines on a ten-minute grid, with weather that wanders from day to day. */
export function climate(name: string): TemperatureSeries {
  const at = CLIMATES[name];
  const draw = random(1);
  const days: number[] = [0];
  for (let day = 1; day <= DAYS + 1; day++)
    days.push(0.8 * days[day - 1] + 4 * (draw.unit() - 0.5));
  const celsius = Float64Array.from({ length: HORIZON / STEP + 1 }, (_, k) => {
    const minute = k * STEP;
    const day = Math.floor(minute / DAY);
    const share = minute / DAY - day;
    return at(minute, days[day] * (1 - share) + days[day + 1] * share);
  });
  return { shape: 'lines', start: 0, step: STEP, celsius };
}
