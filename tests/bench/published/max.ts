import {
  atLeast,
  atMost,
  column,
  count,
  mean,
  quantile,
  short,
  type Bench,
  type Figure,
  type Row,
} from '../bench.ts';
import { excesses, faults, improved, isProved, undecided } from './figures.ts';
import { solveKnown } from './measure.ts';
import { mixed } from '../slice.ts';
import { fileOf, filesOf } from './units.ts';

/** Seconds a file, by set. */
const LIMITS = new Map([
  ['rcpsp-max/j10', 10],
  ['rcpsp-max/j20', 10],
  ['rcpsp-max/j30', 10],
  ['rcpsp-max/ubo10', 10],
  ['rcpsp-max/ubo20', 10],
  ['rcpsp-max/ubo50', 60],
  ['rcpsp-max/ubo100', 60],
]);
const FIRST_SECONDS = 0.1;

const setOf = (unit: string): string => unit.slice(0, unit.lastIndexOf('/'));
const limitOf = (unit: string): number => LIMITS.get(setOf(unit)) ?? 0;
const inSet = (rows: readonly Row[], set: string): Row[] =>
  rows.filter(({ file }) => setOf(String(file)) === `rcpsp-max/${set}`);

function small(rows: readonly Row[]): Figure[] {
  const own = rows.filter(({ file }) => limitOf(String(file)) === 10);
  const proved = count(own, isProved);
  return [
    {
      what: 'of up to 30 activities decided in 10 s',
      value: `${proved} of ${own.length}`,
      target: 'all',
      met: proved === own.length,
    },
    { what: 'their median, ms', value: short(1000 * quantile(column(own, 'seconds'), 0.5)) },
    { what: 'their worst, s', value: short(quantile(column(own, 'seconds'), 1)) },
  ];
}

function hundred(rows: readonly Row[]): Figure[] {
  const feasible = rows.filter(({ known }) => known !== 'infeasible');
  const first = column(feasible, 'firstSeconds');
  const early = first.filter((seconds) => seconds <= FIRST_SECONDS).length;
  return [
    atLeast('ubo100 decided in 60 s', count(rows, isProved), 60, 'at least 60 of 75'),
    {
      what: `ubo100 feasible, first plan within ${FIRST_SECONDS} s`,
      value: `${early} of ${feasible.length}`,
      target: 'all',
      met: early === feasible.length,
    },
    { what: 'their latest first plan, s', value: short(quantile(first, 1)) },
    atMost(
      'ubo100 mean % against the old upper bounds',
      mean(excesses(feasible)),
      -1.5,
      'at most -1.5',
    ),
  ];
}

/** ProGen/max: minimum and maximum lags. */
export const max: Bench = {
  name: 'progen-max',
  about: 'ProGen/max: 10 s a file up to 30 activities, 60 s from 50 on, one thread',
  publicFiles: true,
  longest: 65,
  units: () => mixed([...filesOf([...LIMITS.keys()]).keys()]),
  prepare() {
    for (const known of [...filesOf(['j30']).values()].filter((_, k) => k % 60 === 0))
      solveKnown(known, 0.3);
  },
  run: (unit, most) =>
    Promise.resolve({ file: unit, ...solveKnown(fileOf(unit), Math.min(limitOf(unit), most)) }),
  summarise: (rows) => [
    ...small(rows),
    atLeast(
      'ubo50 decided in 60 s',
      count(inSet(rows, 'ubo50'), isProved),
      73,
      'at least 73 of 75',
    ),
    ...hundred(inSet(rows, 'ubo100')),
    improved(rows),
    ...faults(rows),
  ],
  table: undecided,
};
