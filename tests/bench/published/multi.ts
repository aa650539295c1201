import {
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
import { excesses, faults, improved, isProved, times, undecided } from './figures.ts';
import { solveKnown } from './measure.ts';
import { mixed } from '../slice.ts';
import { fileOf, filesOf } from './units.ts';

function multiBench(
  name: string,
  about: string,
  sets: readonly string[],
  seconds: number,
  figures: (rows: readonly Row[]) => Figure[],
): Bench {
  return {
    name,
    about: `${about}, ${seconds} s a file at the most, one thread`,
    publicFiles: true,
    longest: seconds + 10,
    units: () => mixed([...filesOf(sets).keys()]),
    run: (unit, most) =>
      Promise.resolve({ file: unit, ...solveKnown(fileOf(unit), Math.min(seconds, most)) }),
    summarise: (rows) => [...figures(rows), ...faults(rows), ...times(rows)],
    table: undecided,
  };
}

/** Every row that the table has as closed has to be decided, to the table's value. */
function closed(rows: readonly Row[]): Figure[] {
  const known = rows.filter((row) => row.known !== 'open');
  const decided = count(known, isProved);
  const open = rows.filter((row) => row.known === 'open');
  return [
    {
      what: 'rows closed in the table that are decided',
      value: `${decided} of ${known.length}`,
      target: 'all',
      met: decided === known.length,
    },
    { what: 'rows open in the table that are decided', value: count(open, isProved) },
    improved(open),
    {
      what: 'open rows with a better bound',
      value: count(open, (row) => Number(row.bound) > Number(row.lower)),
    },
    { what: 'mean % above the best known', value: short(mean(excesses(rows))) },
    {
      what: 'without a plan where there is one',
      value: count(rows, (row) => row.makespan === null && row.known !== 'infeasible'),
    },
  ];
}

export const multiMode = multiBench(
  'multi-mode-j10',
  'PSPLIB multi-mode j10',
  ['mm-j10'],
  60,
  (rows) => {
    const proved = count(rows, (row) => row.status === 'optimal' && row.makespan === row.upper);
    return [
      {
        what: 'optima proved',
        value: `${proved} of ${rows.length}`,
        target: 'all 48',
        met: proved === 48,
      },
      atMost('median, s', quantile(column(rows, 'seconds'), 0.5), 1),
    ];
  },
);

export const multiSkill = multiBench(
  'multi-skill',
  'multi-skill projects, people named',
  ['mspsp/mzn12', 'mspsp/instlib'],
  20,
  closed,
);

export const calendars = multiBench(
  'calendars',
  'minimum and maximum lags under calendars',
  ['max-cal'],
  20,
  closed,
);
