import { fault, type Fault } from '#kernel/error.ts';

import { isPlausible, PLAUSIBLE, POST_CURE, unitCure } from './plausible.ts';
import type { ClimateChange, ClimateSettings, Weather } from './settings.ts';

type Range = readonly [low: number, high: number];

/** Between what set-points and heaters of a space are believed. */
function rangeOf({ climate, changes }: ClimateSettings): Range {
  const [low, high] = PLAUSIBLE.air;
  const kept = [
    ...(climate.kind === 'heated' ? climate.setPoints : []),
    ...changes.filter(({ kind }) => kind === 'heater'),
  ];
  const plain = kept.some(
    ({ celsius }) => celsius !== null && isPlausible(celsius, [low, POST_CURE.besides]),
  );
  return [low, plain ? POST_CURE.celsius : high];
}

function implausible(value: number, path: string, thing: string, range: Range): Fault[] {
  if (isPlausible(value, range)) return [];
  const cure =
    value > range[1] && value <= POST_CURE.celsius
      ? `${unitCure(value)} If it is a post-cure, let a heater of the space keep ${POST_CURE.besides} °C or less before it: by that the unit is known.`
      : unitCure(value);
  return [
    fault('cure.implausible', path, `${thing} of ${value} °C cannot be right`, { value, cure }),
  ];
}

const lacks = (path: string, message: string, cure: string): Fault =>
  fault('input.field', path, message, { value: null, cure });

function changeFaults(change: ClimateChange, path: string, range: Range): Fault[] {
  const { name, kind, from, to, celsius, lagHours, warmerBy, percent } = change;
  const out: Fault[] = [];
  if (!(from < to)) {
    const cure = 'Let it end after it begins.';
    out.push(fault('input.field', `${path}.to`, `${name} ends before it begins`, { cure }));
  }
  if (kind === 'heater') {
    if (celsius === null)
      out.push(
        lacks(
          `${path}.celsius`,
          `${name} keeps no temperature`,
          'Say how warm it keeps the space.',
        ),
      );
    else out.push(...implausible(celsius, `${path}.celsius`, `${name}: a temperature`, range));
  }
  if (kind === 'tent' && lagHours === null && warmerBy === null) {
    const cure = 'Say how many hours it lags behind, or by how much it is warmer.';
    out.push(lacks(`${path}.lagHours`, `${name} changes nothing`, cure));
  }
  if (kind === 'dehumidifier' && percent === null)
    out.push(
      lacks(
        `${path}.percent`,
        `${name} keeps no humidity`,
        'Say at most how humid it keeps the space.',
      ),
    );
  return out;
}

/** What is wrong with a space's climate: set-points and heaters in another unit, changes that say nothing. */
export function settingsFaults(settings: ClimateSettings, path: string): Fault[] {
  const { climate, changes } = settings;
  const setPoints = climate.kind === 'heated' ? climate.setPoints : [];
  const range = rangeOf(settings);
  return [
    ...setPoints.flatMap(({ celsius }, k) =>
      implausible(celsius, `${path}.climate.setPoints[${k}].celsius`, 'A set-point', range),
    ),
    ...changes.flatMap((change, k) => changeFaults(change, `${path}.changes[${k}]`, range)),
  ];
}

/** What is wrong with the outdoor table: the first value that can only be of another unit, a column too short. */
export function weatherFaults({ celsius, humidity }: Weather, path: string): Fault[] {
  const out: Fault[] = [];
  const k = celsius.findIndex((value) => !isPlausible(value, PLAUSIBLE.outdoors));
  if (k >= 0) {
    const message = `${celsius[k]} °C outdoors cannot be right`;
    const more = { value: celsius[k], cure: unitCure(celsius[k]) };
    out.push(fault('cure.implausible', `${path}.celsius[${k}]`, message, more));
  }
  if (humidity.length > 0 && humidity.length !== celsius.length) {
    const message = `${humidity.length} humidities stand beside ${celsius.length} temperatures`;
    const cure = 'Give one humidity for each hour, or none at all.';
    out.push(fault('input.field', `${path}.humidity`, message, { value: humidity.length, cure }));
  }
  return out;
}
