import { execFile } from 'node:child_process';
import { promisify } from 'node:util';
import type { YardSettings } from '#seeds/generate/yard.ts';
import { mixed } from './slice.ts';
import { atMost, column, none, quantile, short, type Bench, type Row } from './bench.ts';

const TASKS = 800;
const BOATS = 10;

const program = new URL('./refit/first.ts', import.meta.url).pathname;
const run = promisify(execFile);

interface Unit {
  readonly settings: YardSettings;
  readonly kind: string;
}

const units = new Map<string, Unit>(
  (['loose', 'tight'] as const).flatMap((tightness) =>
    (['warm', 'cold'] as const).flatMap((season) =>
      ['delayed', 'ill'].map((kind, k): [string, Unit] => [
        `${TASKS}/${tightness}/${season}/${kind}`,
        { settings: { tasks: TASKS, boats: BOATS, tightness, season, seed: k + 1 }, kind },
      ]),
    ),
  ),
);

/** Moves of the replan over the fewest; with none at the fewest, every move is too many. */
const share = ({ moves, fewest }: Row): number =>
  typeof moves !== 'number' || typeof fewest !== 'number'
    ? Infinity
    : moves === fewest
      ? 1
      : moves / fewest;

const told = (row: Row, key: string): string =>
  typeof row[key] === 'number' ? String(short(row[key])) : 'none';

export const refitFirst: Bench = {
  name: 'refit-first',
  about: `the first plan of yards of ${TASKS} tasks and a replan after a disturbance (tasks late, a builder ill), each yard in a process that has planned three others`,
  publicFiles: false,
  measures: ['libs/planning/**/*.ts', 'seeds/generate/*.ts', 'tests/bench/refit/*.ts'],
  longest: 180,
  units: () => mixed([...units.keys()]),
  async run(unit) {
    const given = units.get(unit);
    if (given === undefined) throw new Error(`there is no yard ${unit}`);
    const { stdout } = await run(
      process.execPath,
      [program, JSON.stringify(given.settings), given.kind],
      { timeout: 600_000, maxBuffer: 1 << 24 },
    );
    return { unit, ...(JSON.parse(stdout.trim().split('\n').at(-1) ?? '') as Row) };
  },
  summarise(rows) {
    const first = column(rows, 'firstMs');
    const replan = rows.map((row) =>
      typeof row.replanMs === 'number' ? row.replanMs / 1000 : Infinity,
    );
    return [
      atMost('slowest first plan, s', quantile(first, 1) / 1000, 0.3, 'under 0.3'),
      { what: 'median first plan, s', value: short(quantile(first, 0.5) / 1000) },
      { what: 'of it compiling, ms', value: short(quantile(column(rows, 'compileMs'), 0.5)) },
      { what: 'of it root and decode, ms', value: short(quantile(column(rows, 'planMs'), 0.5)) },
      {
        what: 'processor time of a first plan, ms',
        value: short(quantile(column(rows, 'cpuMs'), 0.5)),
      },
      {
        what: 'the start of a thread beside, ms',
        value: short(quantile(column(rows, 'threadMs'), 0.5)),
      },
      atMost('slowest first replan, compiling included, s', quantile(replan, 1), 1, 'under 1'),
      atMost('most near moves after 1 s over the fewest found', Math.max(...rows.map(share)), 1.2),
      none(
        'violations',
        rows.reduce((sum, row) => sum + Number(row.wrong), 0),
      ),
    ];
  },
  table: (rows) => ({
    head: ['yard', 'first plan, ms', 'replan, ms', 'near moves', 'fewest found'],
    lines: rows.map((row) => [
      String(row.unit),
      told(row, 'firstMs'),
      told(row, 'replanMs'),
      told(row, 'moves'),
      told(row, 'fewest'),
    ]),
  }),
};
