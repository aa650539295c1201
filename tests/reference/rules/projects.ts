import { eachOnce, type Rules } from './schedule.ts';

interface Stated {
  /** Number of the first job of the file. */
  readonly first: number;
  readonly durations: readonly number[];
  /** By job and resource. */
  readonly demand: readonly (readonly number[])[];
  readonly capacity: readonly number[];
  /** start(to) is at least start(from) plus so much. */
  readonly arcs: readonly { readonly from: number; readonly to: number; readonly lag: number }[];
}

const wordsOf = (line: string): string[] => line.trim().split(/\s+/);

/** Rows of numbers below a heading of a `.sm` file. */
function rowsBelow(text: string, heading: string): number[][] {
  const lines = text.split('\n');
  const from = lines.findIndex((line) => line.startsWith(heading));
  const below = lines.slice(from + 1);
  const end = below.findIndex((line) => line.startsWith('*'));
  return below
    .slice(0, end < 0 ? below.length : end)
    .filter((line) => /^[\s\d]+$/.test(line) && line.trim() !== '')
    .map((line) => wordsOf(line).map(Number));
}

function singleMode(text: string): Stated {
  const jobs = rowsBelow(text, 'REQUESTS/DURATIONS');
  const durations = jobs.map((row) => row[2]);
  return {
    first: 1,
    durations,
    demand: jobs.map((row) => row.slice(3)),
    capacity: rowsBelow(text, 'RESOURCEAVAILABILITIES')[0],
    arcs: rowsBelow(text, 'PRECEDENCE RELATIONS').flatMap(([job, , , ...successors]) =>
      successors.map((to) => ({ from: job, to, lag: durations[job - 1] })),
    ),
  };
}

function withLags(text: string): Stated {
  const rows = text.trim().split('\n').map(wordsOf);
  const count = Number(rows[0][0]) + 2;
  const jobs = rows.slice(1 + count, 1 + 2 * count);
  return {
    first: 0,
    durations: jobs.map((row) => Number(row[2])),
    demand: jobs.map((row) => row.slice(3).map(Number)),
    capacity: (rows.at(1 + 2 * count) ?? []).map(Number),
    arcs: rows.slice(1, 1 + count).flatMap((row, from) => {
      const k = Number(row[2]);
      return row.slice(3, 3 + k).map((to, s) => ({
        from,
        to: Number(to),
        lag: Number(row[3 + k + s].replaceAll(/[[\]]/g, '')),
      }));
    }),
  };
}

function rulesFor({ first, durations, demand, capacity, arcs }: Stated): Rules {
  const jobs = durations.map((_, k) => first + k);
  return (done) => {
    const startOf = new Map(done.map(({ task, start }) => [task, start]));
    const found = eachOnce(done, jobs);
    for (const { task, start, end } of done)
      if (end - start !== durations[task - first]) found.push(`${task} does not take its time`);
    for (const { from, to, lag } of arcs) {
      const [before, after] = [startOf.get(from), startOf.get(to)];
      if (before === undefined || after === undefined) continue;
      if (after < before + lag) found.push(`the lag of ${lag} from ${from} to ${to} is not kept`);
    }
    capacity.forEach((units, r) => {
      const use = new Map<number, number>();
      for (const { task, start, end } of done)
        for (let t = start; t < end; t += 1)
          use.set(t, (use.get(t) ?? 0) + demand[task - first][r]);
      for (const [t, used] of use)
        if (used > units) found.push(`resource ${r + 1} gives ${used} in period ${t}`);
    });
    return found;
  };
}

/**
 * What breaks the rules of a single-mode file, `.sm` or `.sch` (see the benchmark folder's
 * README): played period by period from the file's own text, without the engine's reader, model
 * or checker.
 */
export const singleModeRules = (text: string): Rules => rulesFor(singleMode(text));
export const lagRules = (text: string): Rules => rulesFor(withLags(text));
