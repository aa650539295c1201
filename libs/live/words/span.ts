const DAY = 1440;

const several = (count: number, one: string, many: string): string =>
  `${String(count)} ${count === 1 ? one : many}`;

export const days = (count: number): string => several(count, 'day', 'days');

/**
 * A span of time as people say it, whatever its sign: `45 min`, `3 h 20 min`, `2 days 3 h`. To the minute,
 * beyond a day to the hour; days of 24 hours.
 */
export function span(minutes: number): string {
  const whole = Math.abs(Math.round(minutes));
  const rounded = whole < DAY ? whole : Math.round(whole / 60) * 60;
  const parts: readonly (readonly [count: number, words: string])[] = [
    [Math.floor(rounded / DAY), days(Math.floor(rounded / DAY))],
    [Math.floor((rounded % DAY) / 60), `${String(Math.floor((rounded % DAY) / 60))} h`],
    [rounded % 60, `${String(rounded % 60)} min`],
  ];
  const said = parts.flatMap(([count, words]) => (count === 0 ? [] : [words]));
  return said.length === 0 ? '0 min' : said.join(' ');
}

/** Crew hours, whatever the sign: `1 crew hour`, `1.5 crew hours`; null for what rounds to nothing. */
export function crewHours(minutes: number): string | null {
  const hours = Math.abs(Math.round((minutes / 60) * 100) / 100);
  return hours === 0 ? null : several(hours, 'crew hour', 'crew hours');
}

/** `2 h later`, `1 day earlier`; `at the same time` within the minute. */
export function laterOrEarlier(minutes: number): string {
  if (Math.round(minutes) === 0) return 'at the same time';
  return `${span(minutes)} ${minutes > 0 ? 'later' : 'earlier'}`;
}
