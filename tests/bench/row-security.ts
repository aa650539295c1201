import { measured, measures } from './access/run.ts';
import { atMost, type Bench, type Row, short } from './bench.ts';

const sizes = [120, 300];
const unitOf = (tasks: number): string => `ready list of ${String(tasks)} tasks`;

const number = (row: Row | undefined, key: string): number => {
  const value = row?.[key];
  return typeof value === 'number' ? value : NaN;
};

export const rowSecurity: Bench = {
  name: 'row-security',
  about:
    'what the second wall costs on the ready list: two databases of one content, row security on and off, asked in turn',
  publicFiles: false,
  longest: 240,
  measures: [...measures, 'seeds/**/*.ts'],
  units: () => sizes.map(unitOf),
  run: (unit) => measured(unit),
  summarise: (rows) =>
    sizes.flatMap((tasks) => {
      const row = rows.find(({ unit }) => unit === unitOf(tasks));
      if (row === undefined) return [];
      const list = number(row, 'listMs') / number(row, 'listOpenMs');
      const reads = number(row, 'readMs') / number(row, 'readOpenMs');
      return [
        atMost(
          `ready list with the wall over without, ${String(tasks)} tasks`,
          list,
          1.15,
          'under 1.15',
        ),
        {
          what: 'the same in ms, median',
          value: `${String(short(number(row, 'listMs')))} over ${String(short(number(row, 'listOpenMs')))}`,
        },
        { what: 'its reads alone, with over without', value: short(reads) },
      ];
    }),
};
