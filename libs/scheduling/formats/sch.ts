import type { Problem } from '../model/problem.ts';
import { singleModeProblem, type Job, type Link } from './benchmark.ts';
import { expectWords, integer, integerAt, malformed, rowsOf, type Row } from './text.ts';

/** What a `.sch` file holds; the first and the last job are the dummies. */
export interface Project {
  readonly jobs: readonly Job[];
  readonly links: readonly Link[];
  readonly capacity: readonly number[];
}

/** A project with minimum and maximum lags as a problem. Throws `input.malformed`. */
export function readSch(text: string, file: string): Problem {
  const { jobs, links, capacity } = readProject(text, file);
  return singleModeProblem(file, 0, jobs, links, capacity, safeHorizon(jobs, links));
}

/**
 * Reads a project with minimum and maximum lags as ProGen/max writes it (C. Schwindt, Report
 * WIOR-489, University of Karlsruhe, 1996): counts, arcs, jobs, capacities. Activities are
 * numbered from 0, the dummies included. Throws `input.malformed`.
 */
export function readProject(text: string, file: string): Project {
  const rows = rowsOf(text, file);
  if (rows.length === 0) {
    throw malformed({ file, line: 1 }, '', 'the file is empty', 'Give a complete .sch file.');
  }
  const count = integerAt(rows[0], 0, 'the number of activities', 1) + 2;
  const resources = integerAt(rows[0], 1, 'the number of resources', 0);
  const expected = 1 + 2 * count + (resources > 0 ? 1 : 0);
  if (rows.length !== expected) {
    const last = rows[rows.length - 1];
    throw malformed(
      last,
      rows.length,
      `the file has ${String(rows.length)} rows instead of ${String(expected)}`,
      'Give the counts, two rows for each activity and dummy, and the capacities.',
    );
  }
  const links = rows.slice(1, 1 + count).flatMap((row, i) => readLinks(row, i, count));
  const jobs = rows.slice(1 + count, 1 + 2 * count).map((row, i) => readJob(row, i, resources));
  return { jobs, links, capacity: readCapacity(rows, resources) };
}

function readLinks(row: Row, from: number, count: number): Link[] {
  expectActivity(row, from);
  const successors = integerAt(row, 2, 'the number of successors', 0);
  expectWords(row, 3 + 2 * successors, 'the row of arcs');
  return Array.from({ length: successors }, (_, s): Link => {
    const to = integerAt(row, 3 + s, 'a successor', 0);
    if (to >= count) {
      throw malformed(
        row,
        to,
        `there is no activity ${String(to)}`,
        `Name an activity from 0 to ${String(count - 1)}.`,
      );
    }
    const word = row.words[3 + successors + s];
    const inner = /^\[(.*)\]$/.exec(word);
    if (inner === null) {
      throw malformed(
        row,
        word,
        `a lag is "${word}", which has no brackets`,
        'Write a lag as [number].',
      );
    }
    return { from, to, lag: integer(row, inner[1], 'a lag', -Infinity), anchor: 'start' };
  });
}

function readJob(row: Row, i: number, resources: number): Job {
  expectActivity(row, i);
  expectWords(row, 3 + resources, 'the row of an activity');
  return {
    duration: integerAt(row, 2, 'a duration', 0),
    demand: Array.from({ length: resources }, (_, r) =>
      integerAt(row, 3 + r, `the demand for resource ${String(r + 1)}`, 0),
    ),
  };
}

function readCapacity(rows: readonly Row[], resources: number): number[] {
  if (resources === 0) return [];
  const row = rows[rows.length - 1];
  expectWords(row, resources, 'the row of capacities');
  return row.words.map((_, r) => integerAt(row, r, `the capacity of resource ${String(r + 1)}`, 0));
}

/** Rows are in order of their activity, with one mode. */
function expectActivity(row: Row, i: number): void {
  if (integerAt(row, 0, 'the activity', 0) !== i) {
    throw malformed(
      row,
      row.words[0],
      `activity ${String(i)} is expected here`,
      'Give the activities in order, each once.',
    );
  }
  if (integerAt(row, 1, 'the number of modes, or the mode', 1) !== 1) {
    throw malformed(
      row,
      row.words[1],
      'the activity has more than one mode',
      'Only single-mode files can be read.',
    );
  }
}

/**
 * A makespan that some optimal plan keeps if there is any plan: the sum, over activities, of
 * the longer of the duration and the longest lag that leaves it. M. Bartusch, R. H. Möhring,
 * F. J. Radermacher, Annals of Operations Research 16 (1988) 201-240 (page from memory).
 */
function safeHorizon(jobs: readonly Job[], links: readonly Link[]): number {
  const longest = jobs.map((job) => job.duration);
  for (const { from, lag } of links) longest[from] = Math.max(longest[from], lag);
  return longest.reduce((sum, span) => sum + span, 0);
}
