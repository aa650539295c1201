import { execFile } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { promisify } from 'node:util';
import type { YardSettings } from '#seeds/generate/yard.ts';
import { atMost, none, quantile, short, type Bench, type Figure, type Row } from './bench.ts';
import { root } from './machine.ts';
import { mixed } from './slice.ts';

const SECONDS = 60;
const THREADS = 2;
/** Tasks, and the aim for the gap in percent. */
const AIMS = [
  [120, 3],
  [300, 8],
] as const;

const program = new URL('./refit/one.ts', import.meta.url).pathname;
const run = promisify(execFile);

/** The frozen list: yards whose finishes are up to crews and their order. */
function yards(): Map<string, YardSettings> {
  const rows = JSON.parse(
    readFileSync(`${root}seeds/generate/tight.json`, 'utf8'),
  ) as YardSettings[];
  return new Map(
    rows
      .filter(({ tasks }) => AIMS.some(([aimed]) => aimed === tasks))
      .map(({ tasks, boats, season, seed }) => [
        `${tasks}/${season}/${seed}`,
        { tasks, boats, season, seed, tightness: 'tight' },
      ]),
  );
}

function figures(rows: readonly Row[], tasks: number, aim: number): Figure[] {
  const gaps = rows
    .filter(({ unit }) => String(unit).startsWith(`${tasks}/`))
    .map(({ gap2 }) => (typeof gap2 === 'number' ? 100 * gap2 : Infinity));
  return [
    atMost(`largest gap of rank 2 at ${tasks} tasks, %`, quantile(gaps, 1), aim),
    { what: `median gap at ${tasks} tasks, %`, value: short(quantile(gaps, 0.5)) },
  ];
}

export const refitGap: Bench = {
  name: 'refit-gap',
  about: `the frozen list of tight yards of ${AIMS.map(([tasks]) => tasks).join(' and ')} tasks, ${SECONDS} s each on ${THREADS} threads: how much better the finishes could still be`,
  publicFiles: false,
  measures: ['libs/planning/**/*.ts', 'seeds/generate/*', 'tests/bench/refit/one.ts'],
  longest: SECONDS + 30,
  units: () => mixed([...yards().keys()]),
  async run(unit, most) {
    const words = [JSON.stringify(yards().get(unit)), String(Math.min(SECONDS, most))];
    const { stdout } = await run(process.execPath, [program, ...words, String(THREADS)], {
      timeout: 1000 * (SECONDS + 120),
      maxBuffer: 1 << 24,
    });
    return { unit, ...(JSON.parse(stdout.trim().split('\n').at(-1) ?? '') as Row) };
  },
  summarise: (rows) => [
    ...AIMS.flatMap(([tasks, aim]) => figures(rows, tasks, aim)),
    none('yards without a plan', rows.filter(({ atEnd }) => atEnd === null).length),
    none(
      'violations',
      rows.reduce((sum, { wrong }) => sum + Number(wrong), 0),
    ),
  ],
  table: (rows) => ({
    head: ['yard', 'finishes', 'bound', 'gap, %', 'MiB'],
    lines: rows.map(({ unit, value2, bound2, gap2, megabytes }) => [
      String(unit),
      String(value2),
      String(bound2),
      typeof gap2 === 'number' ? (100 * gap2).toFixed(2) : 'none',
      String(megabytes),
    ]),
  }),
};
