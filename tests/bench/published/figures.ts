import {
  column,
  count,
  none,
  quantile,
  short,
  type Figure,
  type Row,
  type Table,
} from '../bench.ts';

export const isProved = (row: Row): boolean =>
  row.status === 'optimal' || row.status === 'infeasible';

/** Percent above the best known value, of rows that have a plan and a value. */
export const excesses = (rows: readonly Row[]): number[] =>
  rows.flatMap(({ makespan, upper }) =>
    typeof makespan === 'number' && typeof upper === 'number' && upper > 0
      ? [(100 * (makespan - upper)) / upper]
      : [],
  );

/** What may not happen on any file. */
export const faults = (rows: readonly Row[]): Figure[] => [
  none(
    'contradict the published table',
    count(rows, (row) => row.wrong !== null),
  ),
  none(
    "plans that break the checker's or the file's rules",
    count(rows, (row) => row.broken !== null),
  ),
];

export function times(rows: readonly Row[]): Figure[] {
  const seconds = column(rows, 'seconds');
  return [
    { what: 'median seconds', value: short(quantile(seconds, 0.5)) },
    { what: '95 % within seconds', value: short(quantile(seconds, 0.95)) },
    { what: 'longest seconds', value: short(quantile(seconds, 1)) },
  ];
}

/** How many plans are better than the table has, each with its checker's word for it. */
export const improved = (rows: readonly Row[]): Figure => ({
  what: 'plans better than the table',
  value: count(
    rows,
    ({ makespan, upper, wrong, broken }) =>
      Number(makespan ?? Infinity) < Number(upper) && wrong === null && broken === null,
  ),
});

const told = (value: Row[string]): string => {
  if (value === null) return '-';
  return typeof value === 'number' ? String(short(value)) : String(value);
};

/** The rows that were not proved, or that say something wrong. */
export const undecided = (rows: readonly Row[]): Table => ({
  head: ['not proved', 'plan', 'bound', 'table', 'seconds', 'wrong'],
  lines: rows
    .filter((row) => !isProved(row) || row.wrong !== null || row.broken !== null)
    .toSorted((a, b) => (String(a.file) < String(b.file) ? -1 : 1))
    .map((row) => [
      told(row.file),
      told(row.makespan),
      told(row.bound),
      row.known === 'infeasible' ? 'infeasible' : `${told(row.lower)} to ${told(row.upper)}`,
      told(row.seconds),
      told(row.wrong ?? row.broken),
    ]),
});
