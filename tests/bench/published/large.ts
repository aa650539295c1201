import { readBenchmark } from '../../../apps/cli/solve/solveFile.ts';
import {
  atLeast,
  atMost,
  column,
  count,
  mean,
  quantile,
  short,
  told,
  type Bench,
  type Figure,
  type Row,
} from '../bench.ts';
import { excesses, faults, improved, isProved, undecided } from './figures.ts';
import { alone } from './heuristic.ts';
import { solveKnown, solveKnownInThreads } from './measure.ts';
import { mixed } from '../slice.ts';
import { fileOf, filesOf } from './units.ts';

const SECONDS = 60;
/** Generation passes of the heuristic alone. */
const BUDGETS = [5000, 50_000] as const;

interface Aims {
  readonly set: 'j60' | 'j120';
  readonly threads: number;
  readonly proved: number;
  readonly words: string;
  /** Mean % above the best known: of the whole engine, and of the heuristic by budget. */
  readonly excess: number;
  readonly heuristic: readonly [number, number];
}

function heuristicRow(unit: string): Row {
  const [file, budget] = unit.split('@');
  const known = fileOf(file);
  const found = alone(readBenchmark(known.path), Number(budget));
  return {
    file,
    budget: Number(budget),
    makespan: found?.makespan ?? null,
    upper: known.upper,
    rate: found === null ? null : (1000 * found.schedules) / found.milliseconds,
    wrong: found !== null && found.makespan < known.lower ? `below ${known.lower}` : null,
    broken: found?.complaint ?? null,
  };
}

function largeBench({ set, threads, proved, words, excess, heuristic }: Aims): Bench {
  const workers = threads === 1 ? 'one thread' : `${threads} threads`;
  const solved = (rows: readonly Row[]): Row[] => rows.filter((row) => !('budget' in row));
  return {
    name: `psplib-${set}`,
    about: `PSPLIB ${set}: ${SECONDS} s a file on ${workers}, and the heuristic alone at ${BUDGETS.join(' and ')} schedules`,
    publicFiles: true,
    longest: SECONDS + 10,
    units() {
      const files = [...filesOf([set]).keys()];
      return mixed([
        ...BUDGETS.flatMap((budget) => files.map((file) => `${file}@${budget}`)),
        ...files,
      ]);
    },
    async run(unit, most) {
      if (unit.includes('@')) return heuristicRow(unit);
      const seconds = Math.min(SECONDS, most);
      const known = fileOf(unit);
      const row =
        threads === 1
          ? solveKnown(known, seconds)
          : await solveKnownInThreads(known, seconds, threads);
      return { file: unit, ...row };
    },
    summarise(all) {
      const rows = solved(all);
      const own = BUDGETS.flatMap((budget, k): Figure[] => {
        const these = all.filter((row) => row.budget === budget);
        return [
          atMost(`heuristic alone, mean % at ${budget}`, mean(excesses(these)), heuristic[k]),
          {
            what: `its schedules a second at ${budget}, median`,
            value: told(quantile(column(these, 'rate'), 0.5)),
          },
        ];
      });
      return [
        { what: 'files', value: rows.length },
        atLeast(`proved in ${SECONDS} s`, count(rows, isProved), proved, words),
        atMost(`mean % above the best known after ${SECONDS} s`, mean(excesses(rows)), excess),
        improved(rows),
        { what: 'median s', value: short(quantile(column(rows, 'seconds'), 0.5)) },
        ...own,
        ...faults(all),
      ];
    },
    table: (rows) => undecided(solved(rows)),
  };
}

export const j60 = largeBench({
  set: 'j60',
  threads: 1,
  proved: 43,
  words: 'at least 43 of 48',
  excess: 0.1,
  heuristic: [0.4, 0.17],
});

export const j120 = largeBench({
  set: 'j120',
  threads: 2,
  proved: 27,
  words: 'at least 27 of 60 (45 %)',
  excess: 0.6,
  heuristic: [2.5, 1.0],
});
