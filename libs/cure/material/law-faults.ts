import { fault, type Fault } from '#kernel/error.ts';

import type { ConversionLaw, CureLaw, CureRow, Limits, Milestone, TableLaw } from './material.ts';
import {
  ACTIVATION,
  celsiusFaults,
  FACTOR,
  factorSpreadFaults,
  numberFaults,
  PER_10C,
  type Plausible,
} from './plausible.ts';

const DAY = 1440;

const minutes = (low: number, high: number): Plausible => ({
  unit: 'min',
  low,
  high,
  smaller: 'hours or days',
  larger: 'seconds',
});

/**
 * Between what the time of a milestone lies at any temperature at which work is done (common
 * practice, no source): what is less is mostly hours, what is more seconds.
 */
const TIMES: Readonly<Record<Milestone, Plausible>> = {
  'pot-life': minutes(1, DAY),
  'open-time': minutes(2, 2 * DAY),
  gel: minutes(2, 2 * DAY),
  'tacky-opens': minutes(1, 7 * DAY),
  'tacky-closes': minutes(3, 14 * DAY),
  'bond-opens': minutes(1, 14 * DAY),
  'bond-closes': minutes(5, 60 * DAY),
  'tack-free': minutes(5, 7 * DAY),
  'dust-safe': minutes(5, 7 * DAY),
  handle: minutes(5, 14 * DAY),
  sandable: minutes(10, 30 * DAY),
  cured: minutes(30, 90 * DAY),
};

function rowFaults(row: CureRow, milestone: Milestone, path: string, hottest?: number): Fault[] {
  const out = celsiusFaults(row.celsius, `${path}.celsius`, hottest);
  const at = `${path}.minutes`;
  if (row.minutes > 0 && Number.isFinite(row.minutes)) {
    out.push(...numberFaults(row.minutes, at, TIMES[milestone]));
  } else {
    const more = { value: row.minutes, cure: 'Give the time in minutes, more than 0.' };
    out.push(fault('input.field', at, `${row.minutes} is no length of time`, more));
  }
  return out;
}

/** Where even the coldest row of a sheet is hotter, it is in degrees Fahrenheit. */
const HOTTEST_COLDEST = 40;

function tableFaults({ rows }: TableLaw, milestone: Milestone, path: string): Fault[] {
  if (rows.length < 2) {
    const more = { value: rows.length, cure: 'Give the time at two temperatures or more.' };
    return [fault('input.field', `${path}.rows`, 'One temperature says nothing of another', more)];
  }
  const out: Fault[] = [];
  rows.forEach((row, k) => {
    const at = `${path}.rows[${k}]`;
    out.push(...rowFaults(row, milestone, at, k === 0 ? HOTTEST_COLDEST : undefined));
    if (k === 0) return;
    const before = rows[k - 1];
    if (row.celsius <= before.celsius) {
      const cure = 'List the rows from cold to hot, each temperature once.';
      const message = `${row.celsius} °C follows ${before.celsius} °C`;
      out.push(fault('input.field', `${at}.celsius`, message, { value: row.celsius, cure }));
    } else if (row.minutes > before.minutes) {
      const message = `${row.minutes} min at ${row.celsius} °C is longer than ${before.minutes} min at ${before.celsius} °C`;
      const cure = 'Check the sheet: nothing cures slower for being warmer.';
      out.push(fault('input.field', `${at}.minutes`, message, { value: row.minutes, cure }));
    }
  });
  return out;
}

function conversionFaults(law: ConversionLaw, path: string): Fault[] {
  const { k1, k2, m, n, initial, reached } = law;
  const out: Fault[] = [];
  const wrong = (field: string, value: unknown, message: string, cure: string): void => {
    out.push(fault('input.field', `${path}.${field}`, message, { value, cure }));
  };
  for (const [name, { a, e }] of [
    ['k1', k1],
    ['k2', k2],
  ] as const) {
    if (!(a >= 0) || !Number.isFinite(a)) {
      wrong(`${name}.a`, a, `${a} per minute is no rate`, 'Give the factor, 0 or more.');
    } else if (a > 0) {
      const kilojoules = numberFaults(e / 1000, `${path}.${name}.e`, ACTIVATION);
      out.push(
        ...kilojoules.map((found) => ({
          ...found,
          value: e,
          cure: 'Give the activation energy in J/mol, from 10000 to 200000.',
        })),
      );
    }
  }
  if (k1.a === 0 && k2.a === 0) {
    wrong('k2.a', 0, 'Without a rate nothing cures', 'Give the factor of one of the two rates.');
  }
  for (const [name, power] of [
    ['m', m],
    ['n', n],
  ] as const) {
    if (!(power >= 0 && power <= 10))
      wrong(name, power, `${power} is no order of a reaction`, 'Give it from 0 to 10.');
  }
  if (!(initial >= 0 && initial < reached && reached < 1)) {
    const message = `A conversion does not go from ${initial} to ${reached}`;
    wrong('reached', reached, message, 'Give both as shares of 1, the one reached the greater.');
  } else if (initial === 0 && k1.a === 0 && m > 0) {
    const cure = 'Give a small conversion to begin with, such as 0.01.';
    wrong('initial', initial, 'A cure that feeds on itself never begins from nothing', cure);
  }
  return out;
}

/** What is wrong with one law of a sheet, `path` being where it stands. */
export function lawFaults(
  law: CureLaw,
  milestone: Milestone,
  limits: Limits,
  path: string,
): Fault[] {
  const out = [
    ...factorSpreadFaults(law.spread, path),
    ...numberFaults(law.factor, `${path}.factor`, FACTOR),
  ];
  if (law.kind === 'table') return [...out, ...tableFaults(law, milestone, path)];
  if (law.kind === 'conversion') return [...out, ...conversionFaults(law, path)];
  out.push(...rowFaults(law.at, milestone, `${path}.at`));
  out.push(
    ...(law.kind === 'activation'
      ? numberFaults(law.kjPerMol, `${path}.kjPerMol`, ACTIVATION)
      : numberFaults(law.per10C, `${path}.per10C`, PER_10C)),
  );
  const { celsius } = law.at;
  const [low, high] = [limits.minimumC.value, limits.maximumC.value];
  if (celsius < low || celsius > high) {
    const message = `Its time is that at ${celsius} °C, outside the limits of ${low} to ${high} °C`;
    const cure = 'Give the time at a temperature at which the material may be used.';
    out.push(fault('input.field', `${path}.at.celsius`, message, { value: celsius, cure }));
  }
  return out;
}
