import type { Problem } from '../model/problem.ts';
import { singleModeProblem, type Job, type Link } from './benchmark.ts';
import { expectWords, integer, integerAt, malformed, rowsOf, type Row } from './text.ts';

/**
 * Reads a single-mode project of PSPLIB (R. Kolisch, A. Sprecher, EJOR 96 (1997) 205-216):
 * blocks of rows with a heading each. Times are in periods, one a minute of the problem; jobs
 * keep their order and number, the dummies of the file included. Throws `input.malformed`.
 */
export function readSm(text: string, file: string): Problem {
  const rows = rowsOf(text, file);
  const count = declared(rows, file, 'jobs', 2);
  const resources = declared(rows, file, '- renewable', 1);
  const links = readLinks(block(rows, file, 'PRECEDENCE RELATIONS', count), count);
  const jobs = readJobs(block(rows, file, 'REQUESTS/DURATIONS', count), resources);
  const [row] = block(rows, file, 'RESOURCEAVAILABILITIES', 1);
  expectWords(row, resources, 'the row of capacities');
  const capacity = row.words.map((_, r) =>
    integerAt(row, r, `the capacity of R ${String(r + 1)}`, 0),
  );
  // Any plan can be pressed to the left until something runs at every moment.
  const horizon = jobs.reduce((sum, job) => sum + job.duration, 0);
  return singleModeProblem(file, 1, jobs, links, capacity, horizon);
}

/** The number after the colon of the row that begins so. */
function declared(rows: readonly Row[], file: string, heading: string, least: number): number {
  const row = rows.find((r) => r.words.join(' ').startsWith(heading));
  const number = row === undefined ? null : /:\s*(\S+)/.exec(row.words.join(' '));
  if (row === undefined || number === null) {
    throw malformed(
      { file, line: rows.at(-1)?.line ?? 1 },
      '',
      `there is no row "${heading} ... : number"`,
      'Give a complete .sm file.',
    );
  }
  return integer(row, number[1], `the number of "${heading}"`, least);
}

/** The `count` rows of numbers below a heading, column titles and rules skipped. */
function block(rows: readonly Row[], file: string, heading: string, count: number): readonly Row[] {
  const title = rows.findIndex((row) => row.words.join(' ').startsWith(heading));
  if (title < 0) {
    throw malformed(
      { file, line: rows.at(-1)?.line ?? 1 },
      '',
      `there is no block "${heading}"`,
      'Give a complete .sm file.',
    );
  }
  let first = title + 1;
  while (first < rows.length && /^([a-z]|R$|-)/i.test(rows[first].words[0])) first++;
  const found = rows.slice(first, first + count);
  const end = found.findIndex((row) => row.words[0].startsWith('*'));
  if (found.length < count || end >= 0) {
    const at = found.at(end) ?? rows[title];
    const has = end < 0 ? found.length : end;
    throw malformed(
      at,
      at.words.join(' '),
      `the block "${heading}" has ${String(has)} rows instead of ${String(count)}`,
      `Give one row for each of the ${String(count)}, or correct the number declared above.`,
    );
  }
  return found;
}

function readLinks(rows: readonly Row[], count: number): Link[] {
  return rows.flatMap((row, from) => {
    expectJob(row, from);
    const successors = integerAt(row, 2, 'the number of successors', 0);
    expectWords(row, 3 + successors, 'the row of successors');
    return row.words.slice(3).map((word, s): Link => {
      const to = integerAt(row, 3 + s, 'a successor', 1) - 1;
      if (to >= count) {
        throw malformed(
          row,
          word,
          `there is no job ${word}`,
          `Name a job from 1 to ${String(count)}.`,
        );
      }
      return { from, to, lag: 0, anchor: 'finish' };
    });
  });
}

function readJobs(rows: readonly Row[], resources: number): Job[] {
  return rows.map((row, i) => {
    expectJob(row, i);
    expectWords(row, 3 + resources, 'the row of a job');
    return {
      duration: integerAt(row, 2, 'a duration', 0),
      demand: Array.from({ length: resources }, (_, r) =>
        integerAt(row, 3 + r, `the demand for R ${String(r + 1)}`, 0),
      ),
    };
  });
}

/** Rows are in order of their job, with one mode. */
function expectJob(row: Row, i: number): void {
  if (integerAt(row, 0, 'the job number', 1) !== i + 1) {
    throw malformed(
      row,
      row.words[0],
      `job ${String(i + 1)} is expected here`,
      'Give the jobs in order, each once.',
    );
  }
  if (integerAt(row, 1, 'the number of modes, or the mode', 1) !== 1) {
    throw malformed(
      row,
      row.words[1],
      'the job has more than one mode',
      'Only single-mode files can be read.',
    );
  }
}
