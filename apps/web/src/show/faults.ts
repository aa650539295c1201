import type { Problem } from '../api/problem.ts';

type Fault = Problem['faults'][number];

/** As sentences: each ends with one stop, and none is said twice. */
export function sentences(parts: readonly string[]): string {
  const all = parts.map((part) => part.trim()).filter((part) => part !== '');
  return [...new Set(all.map((part) => (/[.!?…:]$/.test(part) ? part : `${part}.`)))].join(' ');
}

/** The paths that fields have asked after, and so show at their own place. */
const beside = new WeakMap<Problem, Set<string>>();

/** All that is wrong with the field at a path of what was sent; whoever asks says it there. */
export function faultBeside(problem: Problem | undefined, path: string): string | undefined {
  if (problem === undefined) return undefined;
  const found = problem.faults.filter((fault) => fault.path === path);
  if (found.length === 0) return undefined;
  const paths = beside.get(problem) ?? new Set();
  beside.set(problem, paths.add(path));
  return sentences(found.flatMap(({ message, cure }) => [message, cure]));
}

/** One fault where all are told: its path only where no field stands for it. */
export interface ToldFault {
  readonly path: string | null;
  readonly words: string;
}

export interface ToldProblem {
  /** Null: it says no more than its faults do. */
  readonly title: string | null;
  readonly cure: string;
  readonly faults: readonly ToldFault[];
}

/** What a problem says, nothing of it twice. */
export function told(problem: Problem): ToldProblem {
  const { message, cure, faults } = problem;
  const paths = beside.get(problem);
  const says = ({ path, message: what }: Fault): boolean =>
    message === what || message === `${path}: ${what}`;
  return {
    title: faults.some(says) ? null : message,
    cure: faults.some((fault) => fault.cure === cure) ? '' : cure,
    faults: faults.map((fault) => ({
      path: fault.path === '' || paths?.has(fault.path) === true ? null : fault.path,
      words: sentences([fault.message, fault.cure]),
    })),
  };
}
