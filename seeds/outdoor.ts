/**
 * Hourly outdoor temperatures of a mild coast in early winter, or around another mean, made up: a daily swing that
 * is coldest before dawn, and weather that comes and goes in six and a half days.
 */
export function inventedOutdoor(
  from: string,
  hours: number,
  mean = 8.8,
): { from: string; celsius: number[]; source: string } {
  const celsius = Array.from({ length: hours }, (_, hour) => {
    const day = 3.6 * Math.sin((2 * Math.PI * (hour - 9)) / 24); // hour 0 is midnight: least at 03, most at 15
    const weather = 1.8 * Math.sin((2 * Math.PI * hour) / (24 * 6.5));
    return Math.round((mean + day + weather) * 10) / 10;
  });
  return { from, celsius, source: 'Invented demo weather, not a measurement' };
}
