import { execFileSync } from 'node:child_process';
import { atLeast, atMost, column, count, quantile, short, type Bench, type Row } from '../bench.ts';
import { faults, undecided } from './figures.ts';
import { solveKnown } from './measure.ts';
import { mixed } from '../slice.ts';
import { fileOf, filesOf } from './units.ts';

const SECONDS = 60;
const STARTS = 3;
const program = new URL('../peers/own.ts', import.meta.url).pathname;

/** A process that solves one file, from its start to its end: milliseconds beside those of the solve. */
function coldStart(): Row {
  const [unit] = filesOf(['j30']).keys();
  const runs = Array.from({ length: STARTS }, () => {
    const from = performance.now();
    const out = execFileSync(process.execPath, [program, fileOf(unit).path, '10'], {
      encoding: 'utf8',
    });
    const whole = performance.now() - from;
    const { seconds } = JSON.parse(out.trim().split('\n').at(-1) ?? '') as { seconds: number };
    return { whole, solve: 1000 * seconds };
  });
  return {
    file: 'start-up',
    startMs: quantile(
      runs.map(({ whole, solve }) => whole - solve),
      0.5,
    ),
    coldSolveMs: quantile(
      runs.map(({ solve }) => solve),
      0.5,
    ),
  };
}

const isFile = (row: Row): boolean => 'status' in row;

/** All of PSPLIB j30, whose optima are known. */
export const j30: Bench = {
  name: 'psplib-j30',
  about: `PSPLIB j30 to the proof, ${SECONDS} s a file at the most, one thread of one process warmed up on other files`,
  publicFiles: true,
  longest: SECONDS + 5,
  units: () => ['start-up', ...mixed([...filesOf(['j30']).keys()])],
  prepare() {
    const others = [...filesOf(['rcpsp-max/ubo20', 'j60']).values()];
    for (const known of others.filter((_, k) => k % 6 === 0)) solveKnown(known, 0.3);
  },
  run: (unit, most) =>
    Promise.resolve(
      unit === 'start-up'
        ? coldStart()
        : { file: unit, ...solveKnown(fileOf(unit), Math.min(SECONDS, most)) },
    ),
  summarise(all) {
    const rows = all.filter(isFile);
    const start = all.find((row) => !isFile(row));
    const seconds = column(rows, 'seconds');
    const proved = count(rows, (row) => row.status === 'optimal' && row.makespan === row.upper);
    return [
      atLeast('optima proved', proved, 480, '480 of 480'),
      atMost('median, ms', 1000 * quantile(seconds, 0.5), 2),
      atMost('95 % within ms', 1000 * quantile(seconds, 0.95), 50),
      atMost('worst, s', quantile(seconds, 1), 10),
      ...faults(rows),
      ...(start === undefined
        ? []
        : [
            { what: 'a cold process: its start, ms', value: short(Number(start.startMs)) },
            { what: 'a cold process: its solve, ms', value: short(Number(start.coldSolveMs)) },
          ]),
    ];
  },
  table: (rows) => undecided(rows.filter(isFile)),
};
