import { solveFile, type Solved } from '../../apps/cli/solve/solveFile.ts';
import { check } from '#scheduling/checker/check.ts';
import { contradiction, knownOf, type Known } from '../reference/data.ts';
import { rulesOf } from '../reference/rules/of-file.ts';
import { asDone } from '../reference/rules/schedule.ts';
import { quantile, short, type Bench, type Figure, type Row } from './bench.ts';

const SEED = 1;

/** What breaks the rules of the file itself, played from its text; null if nothing does. */
type Judge = (known: Known, solved: Solved) => string | null;

/** Solves a file for so many seconds and compares with the published table. */
function measure(known: Known, seconds: number, judge: Judge | null): Row {
  const solved = solveFile(known.path, { kind: 'seconds', seconds }, SEED);
  const { outcome } = solved;
  const { status, makespan, bound } = outcome;
  return {
    ...outcome,
    known: known.status,
    upper: known.upper,
    wrong: contradiction(known, { status, makespan, bound }),
    broken: judge?.(known, solved) ?? null,
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
  judge: Judge | null = null,
): Bench {
  const files = new Map<string, Known>();
  return {
    name,
    about,
    publicFiles: true,
    units() {
      for (const set of sets)
        for (const known of knownOf(set)) files.set(`${set}/${known.name}`, known);
      return [...files.keys()];
    },
    run(unit) {
      const known = files.get(unit);
      if (known === undefined) throw new Error(`there is no file ${unit}`);
      return Promise.resolve(measure(known, seconds, judge));
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

/** A plan has to satisfy both the checker and the rules of its file. */
const judged: Judge = (known, { problem, plan }) => {
  if (plan === null) return null;
  const complaints = [
    ...check(problem, plan).map(({ message }) => message),
    ...rulesOf(known.path)(asDone(problem, plan)),
  ];
  return complaints.at(0) ?? null;
};

/** Modes, named people, calendars and splitting, from outside our own data. */
export const multi = filesBench(
  'multi',
  'multi-mode (mm-j10), multi-skill (mspsp) and calendar (max-cal) files, 10 s a file',
  ['mm-j10', 'mspsp/mzn12', 'mspsp/instlib', 'max-cal'],
  10,
  (rows) => {
    const infeasible = rows.filter((row) => row.known === 'infeasible');
    const feasible = rows.filter((row) => row.known !== 'infeasible');
    const planned = count(feasible, (row) => row.makespan !== null);
    const broken = count(rows, (row) => row.broken !== null);
    const above = feasible
      .filter((row) => row.makespan !== null)
      .map((row) => (100 * (Number(row.makespan) - Number(row.upper))) / Number(row.upper));
    return [
      { what: 'feasible files', value: feasible.length },
      {
        what: 'with a plan',
        value: planned,
        target: '90 %',
        met: planned >= 0.9 * feasible.length,
      },
      {
        what: "plans that break their file's rules",
        value: broken,
        target: '0',
        met: broken === 0,
      },
      {
        what: 'best known value reached',
        value: count(feasible, (row) => row.makespan === row.upper),
      },
      { what: 'proved optimal', value: count(feasible, (row) => row.status === 'optimal') },
      { what: 'median % above the best known', value: short(quantile(above, 0.5)) },
      { what: 'largest % above the best known', value: short(quantile(above, 1)) },
      { what: 'infeasible files', value: infeasible.length },
      {
        what: 'proved infeasible',
        value: count(infeasible, (row) => row.status === 'infeasible'),
      },
    ];
  },
  judged,
);
