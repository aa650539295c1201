import { execFile } from 'node:child_process';
import { promisify } from 'node:util';
import type { YardSettings } from '#seeds/generate/yard.ts';
import { none, quantile, short, type Bench, type Figure, type Row } from './bench.ts';
import { mixed } from './slice.ts';

const SECONDS = 60;
const program = new URL('./refit/one.ts', import.meta.url).pathname;
const run = promisify(execFile);

const sizes = [
  { tasks: 15, boats: 1 },
  { tasks: 40, boats: 2 },
  { tasks: 120, boats: 4 },
  { tasks: 300, boats: 7 },
  { tasks: 800, boats: 10 },
] as const;

/** Each size loose and tight, warm and cold. */
const yards = new Map<string, YardSettings>(
  sizes.flatMap((size) =>
    (['loose', 'tight'] as const).flatMap((tightness) =>
      (['warm', 'cold'] as const).map((season): [string, YardSettings] => [
        `${size.tasks}/${tightness}/${season}`,
        { ...size, tightness, season, seed: 1 },
      ]),
    ),
  ),
);

async function runUnit(unit: string, most: number): Promise<Row> {
  const { stdout } = await run(
    process.execPath,
    [program, JSON.stringify(yards.get(unit)), String(Math.min(SECONDS, most)), '1'],
    { timeout: 1000 * (SECONDS + 120), maxBuffer: 1 << 24 },
  );
  return { unit, ...(JSON.parse(stdout.trim().split('\n').at(-1) ?? '') as Row) };
}

const text = (value: Row[string]): string => (value === null ? 'none' : String(value));

/** Better by so many percent than after the first second. */
function gained(row: Row): string {
  const [first, last] = [row.after1s, row.atEnd];
  return typeof first === 'number' && typeof last === 'number'
    ? `${short((100 * (first - last)) / Math.max(1, first))} %`
    : 'none';
}

const line = (row: Row): Figure => ({
  what: text(row.unit),
  value: [
    `${text(row.tasks)} tasks`,
    `first plan ${text(row.firstPlanMs)} ms`,
    `finishes after 1, 10, ${SECONDS} s ${text(row.after1s)}, ${text(row.after10s)}, ${text(row.atEnd)} (${gained(row)})`,
    ...[1, 2, 3, 4].map(
      (rank) =>
        `rank ${rank}: ${text(row[`value${rank}`])}, bound ${text(row[`bound${rank}`])}, gap ${text(row[`gap${rank}`])}`,
    ),
    `${text(row.megabytes)} MiB`,
  ].join('; '),
});

export const refit: Bench = {
  name: 'refit',
  about: `made-up yards of 15 to 800 tasks, ${SECONDS} s each, one process a yard`,
  publicFiles: false,
  longest: SECONDS + 30,
  measures: ['libs/planning/**/*.ts', 'seeds/generate/*.ts', 'tests/bench/refit/one.ts'],
  units: () => mixed([...yards.keys()]),
  run: runUnit,
  summarise: (rows) => {
    const first = rows.flatMap(({ firstPlanMs }) =>
      typeof firstPlanMs === 'number' ? [firstPlanMs] : [],
    );
    const planless = rows.filter(({ atEnd }) => atEnd === null).length;
    const wrong = rows.reduce((sum, row) => sum + Number(row.wrong), 0);
    return [
      ...rows.map(line),
      { what: 'median first plan, ms', value: short(quantile(first, 0.5)) },
      none('yards without a plan', planless),
      none('violations', wrong),
    ];
  },
};
