import type { Milestone, Side } from '#cure/material/material.ts';
import { leftOut } from '#cure/testing/left-out.ts';
import * as chart from '#cure/testing/published.ts';
import { quantile, short, type Bench, type Figure, type Row } from './bench.ts';
import { climates, DAYS } from './cure/climates.ts';
import { measureModel, measureTable } from './cure/measure.ts';

const MILESTONES: readonly (readonly [Milestone, Side])[] = [
  ['bond-opens', 'open'],
  ['bond-closes', 'close'],
  ['sandable', 'open'],
  ['cured', 'open'],
];

/** "Powercrete J Gel, Re-coat and Curing Time Chart" (manufacturer's chart, scribd 708897795, read). */
const CHARTS = {
  gel: chart.GEL,
  'recoat opens': chart.RECOAT_OPENS,
  'recoat closes': chart.RECOAT_CLOSES,
  dry: chart.DRY,
  'Shore D65': chart.SHORE_D65,
  'Shore D75': chart.SHORE_D75,
} as const;

const percent = (share: number): string => `${share > 0 ? '+' : ''}${(100 * share).toFixed(1)} %`;

/** How far each interior row of a published chart is off what its neighbours say. */
function measureChart(name: string): Row {
  const rows = leftOut(CHARTS[name as keyof typeof CHARTS]);
  const off = rows.map(({ predicted, minutes }) => predicted / minutes - 1);
  return {
    errors: rows.map(({ celsius }, k) => `${celsius} °C ${percent(off[k])}`).join(', '),
    worst: Math.max(...off.map(Math.abs)),
    late: Math.max(...rows.map(({ predicted, minutes }) => minutes / predicted)),
  };
}

const units = new Map<string, () => Row>([
  ...climates.flatMap((name) =>
    MILESTONES.map(([milestone, side]): [string, () => Row] => [
      `${name}/${milestone}`,
      () => measureTable(name, milestone, side),
    ]),
  ),
  ['shed/rate model', () => measureModel('shed')],
  ...Object.keys(CHARTS).map((name): [string, () => Row] => [
    `left out/${name}`,
    () => measureChart(name),
  ]),
]);

const number = (value: Row[string]): number => (typeof value === 'number' ? value : NaN);
const told = (value: Row[string]): string => String(short(number(value)));

function line(row: Row): Figure {
  const what = String(row.unit);
  if ('errors' in row) return { what, value: `${String(row.errors)}; late ${told(row.late)}` };
  const common = `${told(row.knots)} knots in ${told(row.linesMs)} ms; lookup ${told(row.lookupNs)} ns`;
  if (!('clockMs' in row)) return { what, value: `${common}; off ${told(row.worstOff)} min` };
  return {
    what,
    value: [
      `clock in ${told(row.clockMs)} ms`,
      `${common}, of ${told(row.points)} five-minute steps ${told(row.stepNs)} ns`,
      `off ${told(row.worstOff)} min, steps ${told(row.stepWorstOff)}, plain ${told(row.worst)}`,
      `a film ${told(row.clockUs)} µs, plain ${told(row.plainUs)} µs`,
    ].join('; '),
  };
}

export const cure: Bench = {
  name: 'cure',
  about: `clocks and lag tables over ${DAYS} days, against five-minute steps and plain integration`,
  publicFiles: false,
  longest: 60,
  measures: ['libs/cure/**/*.ts', 'tests/bench/cure/*.ts', 'tests/bench/cure.ts'],
  units: () => [...units.keys()],
  run: (unit) => Promise.resolve({ unit, ...(units.get(unit)?.() ?? {}) }),
  summarise: (rows) => {
    const all = (key: string): number[] =>
      rows.flatMap((row) => (typeof row[key] === 'number' ? [row[key]] : []));
    const most = (key: string): number => Math.max(...all(key));
    const ratio = (a: string, b: string): number =>
      quantile(
        rows.filter((row) => a in row && b in row).map((row) => number(row[a]) / number(row[b])),
        0.5,
      );
    const lookup = most('lookupNs');
    const off = Math.max(
      most('worstOff'),
      ...rows.filter((row) => 'plainUs' in row).map((row) => number(row.worst)),
    );
    return [
      ...rows.map(line),
      { what: 'slowest lookup, ns', value: short(lookup), target: '< 200', met: lookup < 200 },
      { what: 'lookups a second, median', value: Math.round(1e9 / quantile(all('lookupNs'), 0.5)) },
      { what: 'lookup by lines over by steps', value: short(ratio('lookupNs', 'stepNs')) },
      { what: 'knots, median', value: short(quantile(all('knots'), 0.5)) },
      { what: 'clock, ms, median', value: short(quantile(all('clockMs'), 0.5)) },
      { what: 'table, ms, median', value: short(quantile(all('linesMs'), 0.5)) },
      { what: 'minutes off direct integration', value: off, target: '<= 1', met: off <= 1 },
      { what: 'plain integration over the clock', value: short(ratio('plainUs', 'clockUs')) },
    ];
  },
};
