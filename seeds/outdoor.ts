import type { YardInput } from '#planning/yard/yard.ts';

/**
 * Hourly outdoor temperatures and humidity of a mild coast in early winter, or around another mean,
 * made up: a daily swing that is coldest and dampest before dawn, and weather that comes and goes
 * in six and a half days.
 */
export function inventedOutdoor(
  from: string,
  hours: number,
  mean = 8.8,
): NonNullable<YardInput['outdoor']> {
  const day = (hour: number): number => Math.sin((2 * Math.PI * (hour - 9)) / 24); // hour 0 is midnight: least at 03, most at 15
  const weather = (hour: number): number => Math.sin((2 * Math.PI * hour) / (24 * 6.5));
  const each = (of: (hour: number) => number): number[] =>
    Array.from({ length: hours }, (_, hour) => of(hour));
  return {
    from,
    celsius: each((hour) => Math.round((mean + 3.6 * day(hour) + 1.8 * weather(hour)) * 10) / 10),
    humidity: each((hour) => Math.round(79 - 9 * day(hour) + 4 * weather(hour))),
    source: 'Invented demo weather, not a measurement',
  };
}
