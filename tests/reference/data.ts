import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** Where the public benchmark files are; they may not be redistributed, so they may be absent. */
const benchmarkFolder =
  process.env.CUREWRIGHT_BENCH_DATA ??
  new URL('../../../shared/bench-data', import.meta.url).pathname;

/** Why tests and benches on the public files cannot run, or null if they can. */
export const absence = existsSync(join(benchmarkFolder, 'j30', 'best-known.csv'))
  ? null
  : 'the public benchmark files are not here (CUREWRIGHT_BENCH_DATA names their folder)';

/** One row of a set's `best-known.csv`. */
export interface Known {
  readonly name: string;
  readonly path: string;
  readonly status: 'optimal' | 'open' | 'infeasible';
  /** NaN where infeasible. */
  readonly lower: number;
  readonly upper: number;
}

/** What is known of a set, in the order of its table. `set`: a folder, e.g. `rcpsp-max/ubo10`. */
export function knownOf(set: string): readonly Known[] {
  const [head, ...lines] = readFileSync(join(benchmarkFolder, set, 'best-known.csv'), 'utf8')
    .trim()
    .split('\n');
  const columns = head.split(',');
  return lines.map((line) => {
    const cells = line.split(',');
    const cell = (column: string): string => cells[columns.indexOf(column)];
    const number = (column: string): number => (cell(column) === '' ? NaN : Number(cell(column)));
    return {
      name: cell('instance'),
      path: join(benchmarkFolder, set, cell('instance')),
      status: statusOf(cell('status')),
      lower: number('lower_bound'),
      upper: number('upper_bound'),
    };
  });
}

function statusOf(word: string): Known['status'] {
  if (word === 'optimal' || word === 'open' || word === 'infeasible') return word;
  throw new Error(`best-known.csv has the status "${word}"`);
}

/** What contradicts the table, in words; null if nothing does. */
export function contradiction(
  known: Known,
  found: { readonly status: string; readonly makespan: number | null; readonly bound: number },
): string | null {
  const { status, makespan, bound } = found;
  if (known.status === 'infeasible') return makespan === null ? null : 'a plan where none exists';
  if (status === 'infeasible') return 'no plan where one exists';
  if (makespan !== null && makespan < known.lower)
    return `makespan ${makespan} below ${known.lower}`;
  if (status === 'optimal' && makespan !== null && makespan > known.upper) {
    return `optimum ${makespan} above ${known.upper}`;
  }
  return bound > known.upper ? `bound ${bound} above ${known.upper}` : null;
}
