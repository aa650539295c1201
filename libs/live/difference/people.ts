import type { Someone, TaskDifference } from './tasks.ts';

/** What becomes of one person's tasks, by id. */
export interface PersonDifference {
  readonly personId: string;
  readonly name: string;
  /** Theirs in both plans, at another time. */
  readonly moves: readonly string[];
  /** Theirs now. */
  readonly takes: readonly string[];
  /** Theirs no more. */
  readonly leaves: readonly string[];
}

interface Gathered {
  readonly moves: string[];
  readonly takes: string[];
  readonly leaves: string[];
}

const count = ({ moves, takes, leaves }: PersonDifference): number =>
  moves.length + takes.length + leaves.length;

/** Those whom the differences concern; whom they concern most first. */
export function peopleDifferences(tasks: readonly TaskDifference[]): PersonDifference[] {
  const names = new Map<string, string>();
  const gathered = new Map<string, Gathered>();
  const of = ({ personId, name }: Someone): Gathered => {
    names.set(personId, name);
    const known = gathered.get(personId) ?? { moves: [], takes: [], leaves: [] };
    gathered.set(personId, known);
    return known;
  };
  for (const { taskId, kind, peopleBefore, peopleAfter } of tasks) {
    const had = new Set(peopleBefore.map(({ personId }) => personId));
    const has = new Set(peopleAfter.map(({ personId }) => personId));
    for (const one of peopleAfter) {
      if (!had.has(one.personId)) of(one).takes.push(taskId);
      else if (kind === 'moved') of(one).moves.push(taskId);
    }
    for (const one of peopleBefore) if (!has.has(one.personId)) of(one).leaves.push(taskId);
  }
  return [...gathered]
    .map(([personId, lists]) => ({ personId, name: names.get(personId) ?? personId, ...lists }))
    .sort((a, b) => count(b) - count(a) || (a.personId < b.personId ? -1 : 1));
}
