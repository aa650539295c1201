import { counted, inLanguage } from './language.ts';

/** The rooms of outdoor temperatures and of readings. */
const en = {
  outdoor: {
    lead: 'One temperature an hour, from a weather service or an outside logger. Unheated spaces and hull skins follow it.',
    none: 'The yard has no outdoor temperatures yet.',
    range: (from: string, until: string) => `From ${from} until ${until}.`,
    hours: (count: number) => counted(count, { one: '# hour', other: '# hours' }),
    withHumidity: 'With humidity.',
    withoutHumidity: 'Without humidity: how damp unheated spaces are is not known.',
    source: (source: string) => `Source: ${source}`,
    chart: 'Temperature outdoors',
    importTitle: 'Bring in another table',
    importHint:
      'It replaces the one that is there. Each line: when, temperature, and if you have it humidity in percent. Moments without an offset are taken by the yard’s clock.',
    example: '2026-12-01 07:00;4.5;82',
    file: 'A file',
    paste: 'Or paste it',
    unit: 'Temperatures are in',
    units: { celsius: '°C', fahrenheit: '°F' },
    sourceField: 'Where it is from',
    sourceHint: 'Stands beside every number that follows from it.',
    put: 'Replace the table',
    found: (from: string, until: string, hours: string) => `${hours}, from ${from} until ${until}.`,
    filled: (count: number) =>
      counted(count, {
        one: '# missing hour was put between its neighbours.',
        other: '# missing hours were put between their neighbours.',
      }),
    gap: (from: string, until: string, longest: number) =>
      `Nothing is said from ${from} until ${until}. At most ${String(longest)} hours in a row can be guessed: fill the gap, or leave out what comes before or after it.`,
    nothing: 'No line of it could be read.',
  },
  fault: {
    title: (count: number) =>
      counted(count, { one: 'One line cannot be read', other: '# lines cannot be read' }),
    line: (line: number) => `Line ${String(line)}`,
    time: (text: string) =>
      `“${text}” is no moment. Write 2026-12-01 07:00, 1.12.2026 07:00, or with an offset 2026-12-01T07:00:00+01:00.`,
    temperature: (text: string) => `“${text}” is no temperature. Write a number, 4.5 or 4,5.`,
    humidity: (text: string) => `“${text}” is no humidity. Write percent, 0 to 100, or nothing.`,
    more: (count: number) => counted(count, { one: 'and one more', other: 'and # more' }),
    rest: 'Correct them, or take in the rest without them.',
  },
  readings: {
    lead: 'They correct what is known of a space, from the last one on.',
    add: 'Add a reading',
    space: 'Space',
    allSpaces: 'All spaces',
    of: 'Of',
    ofs: { air: 'the air', surface: 'a surface' },
    at: 'When',
    celsius: 'Temperature',
    humidity: 'Humidity',
    note: 'Note',
    import: 'Bring in a logger’s file',
    importHint:
      'Each line: when, temperature, and if you have it humidity in percent. What the yard has already is left out.',
    put: 'Take these readings in',
    count: (count: number) => counted(count, { one: '# reading', other: '# readings' }),
    added: (added: number, skipped: number) =>
      `${counted(added, { one: '# reading was', other: '# readings were' })} taken in${
        skipped === 0
          ? ''
          : `; ${counted(skipped, { one: '# was', other: '# were' })} there already`
      }.`,
    list: 'Readings',
    none: 'No readings in this time.',
    from: 'From',
    until: 'Until',
    remove: (when: string) => `Remove the reading of ${when}`,
    removing: (when: string) => `Remove the reading of ${when}?`,
    warning: 'What is reckoned with it is reckoned anew without it.',
    humidityOf: (percent: string) => `${percent} %`,
    more: 'Older ones',
  },
} as const;

export const air = inLanguage({ en });
