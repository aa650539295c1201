import { solveFile } from '../../apps/cli/solve/solveFile.ts';
import { contradiction, knownOf, type Known } from '../reference/data.ts';
import { quantile, short, type Bench, type Figure, type Row } from './bench.ts';

const SEED = 1;

/** Solves a file for so many seconds and compares with the published table. */
function measure(known: Known, seconds: number): Row {
  const outcome = solveFile(known.path, { kind: 'seconds', seconds }, SEED);
  const { status, makespan, bound } = outcome;
  return {
    ...outcome,
    known: known.status,
    upper: known.upper,
    wrong: contradiction(known, { status, makespan, bound }),
  };
}

function times(rows: readonly Row[]): Figure[] {
  const seconds = rows.map((row) => Number(row.seconds));
  return [
    { what: 'median seconds', value: short(quantile(seconds, 0.5)) },
    { what: '95 % within seconds', value: short(quantile(seconds, 0.95)) },
    { what: 'longest seconds', value: short(quantile(seconds, 1)) },
  ];
}

function wrong(rows: readonly Row[]): Figure {
  const count = rows.filter((row) => row.wrong !== null).length;
  return { what: 'contradict the published table', value: count, target: '0', met: count === 0 };
}

const count = (rows: readonly Row[], test: (row: Row) => boolean): number =>
  rows.filter(test).length;

function filesBench(
  name: string,
  about: string,
  sets: readonly string[],
  seconds: number,
  figures: (rows: readonly Row[]) => Figure[],
): Bench {
  const files = new Map<string, Known>();
  return {
    name,
    about,
    units() {
      for (const set of sets)
        for (const known of knownOf(set)) files.set(`${set}/${known.name}`, known);
      return [...files.keys()];
    },
    run(unit) {
      const known = files.get(unit);
      if (known === undefined) throw new Error(`there is no file ${unit}`);
      return Promise.resolve(measure(known, seconds));
    },
    summarise: (rows) => [...figures(rows), wrong(rows), ...times(rows)],
  };
}

/** All of PSPLIB j30, whose optima are known. */
export const j30 = filesBench(
  'j30',
  'PSPLIB j30, 1 s a file, against the published optima',
  ['j30'],
  1,
  (rows) => {
    const reached = count(rows, (row) => row.makespan === row.upper);
    return [
      { what: 'files', value: rows.length },
      {
        what: 'published optimum reached',
        value: reached,
        target: '460 of 480',
        met: reached >= 460,
      },
      { what: 'proved optimal', value: count(rows, (row) => row.status === 'optimal') },
    ];
  },
);

const maxSets = ['j10', 'j20', 'j30', 'ubo10', 'ubo20', 'ubo50'].map((set) => `rcpsp-max/${set}`);

/** ProGen/max files of up to 50 activities. */
export const max = filesBench(
  'max',
  'ProGen/max up to 50 activities, 2 s a file, against the published verdicts',
  maxSets,
  2,
  (rows) => {
    const infeasible = rows.filter((row) => row.known === 'infeasible');
    const feasible = rows.filter((row) => row.known !== 'infeasible');
    const planned = count(feasible, (row) => row.makespan !== null);
    const proved = count(infeasible, (row) => row.status === 'infeasible');
    return [
      { what: 'feasible files', value: feasible.length },
      { what: 'with a plan', value: planned, target: 'all', met: planned === feasible.length },
      { what: 'proved optimal', value: count(feasible, (row) => row.status === 'optimal') },
      { what: 'infeasible files', value: infeasible.length },
      {
        what: 'proved infeasible',
        value: proved,
        target: '90 %',
        met: proved >= 0.9 * infeasible.length,
      },
    ];
  },
);
