import type {
  Climate,
  ClimateChange,
  ClimateSettings,
  ClimateSpan,
  SetPoint,
  SpaceReading,
  WallClock,
  Weather,
} from '../settings.ts';

/** Minute 0 is Monday, 00:00, and no clock is ever changed. */
export const utc: WallClock = (minute) => ({
  weekday: (((Math.floor(minute / 1440) % 7) + 7) % 7) + 1,
  minuteOfDay: ((minute % 1440) + 1440) % 1440,
});

export const daily = (from: string, celsius: number): SetPoint => ({
  weekdays: [1, 2, 3, 4, 5, 6, 7],
  from,
  celsius,
});

export const heatedTo = (...setPoints: readonly SetPoint[]): Climate => ({
  kind: 'heated',
  setPoints,
});

export const followed = (lagHours: number, warmerBy = 0): Climate => ({
  kind: 'outdoors',
  lagHours,
  warmerBy,
});

/** Exactly known, with nothing to it but its air. */
export const settingsOf = (
  climate: Climate,
  more: Partial<ClimateSettings> = {},
): ClimateSettings => ({
  climate,
  bandC: 0,
  humidity: null,
  skin: null,
  changes: [],
  ...more,
});

export const spanOf = (days: number, first = 0, step = 10): ClimateSpan => ({
  first,
  horizon: days * 1440,
  step,
});

/** So many hours of weather from a minute on. */
export const weatherOf = (
  start: number,
  hours: number,
  celsius: (hour: number) => number,
  humidity?: (hour: number) => number,
): Weather => ({
  start,
  celsius: Array.from({ length: hours }, (_, k) => celsius(start / 60 + k)),
  humidity:
    humidity === undefined ? [] : Array.from({ length: hours }, (_, k) => humidity(start / 60 + k)),
});

export const changeOf = (
  kind: ClimateChange['kind'],
  from: number,
  to: number,
  more: Partial<ClimateChange> = {},
): ClimateChange => ({
  id: kind,
  name: kind,
  kind,
  from,
  to,
  celsius: null,
  lagHours: null,
  warmerBy: null,
  percent: null,
  watts: 0,
  costPerDay: 0,
  ...more,
});

export const readingOf = (
  at: number,
  celsius: number,
  more: Partial<SpaceReading> = {},
): SpaceReading => ({
  id: `r${at}`,
  space: 'shed',
  of: 'air',
  at,
  minutes: 0,
  celsius,
  humidity: null,
  ...more,
});
