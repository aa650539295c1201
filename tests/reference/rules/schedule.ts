import type { Plan } from '#scheduling/model/plan.ts';
import type { Problem } from '#scheduling/model/problem.ts';

/** One task of a plan in the numbers of the file it came from. */
export interface Done {
  readonly task: number;
  /** Of the task's options, in the file's order, from 0. */
  readonly option: number;
  readonly start: number;
  readonly end: number;
  readonly people: readonly { readonly person: number; readonly skill: number }[];
}

/** What is wrong with a schedule, in words; empty where nothing is. */
export type Rules = (done: readonly Done[]) => string[];

/** A plan as the file's rules speak of it: ids end in the file's numbers, people and skills from 1. */
export const asDone = (problem: Problem, plan: Plan): Done[] =>
  plan.placements.map(({ activity, mode, start, finish, crew }) => ({
    task: Number(problem.activities[activity].id),
    option: mode,
    start,
    end: finish,
    people: crew.map(({ builder, demand }) => ({
      person: Number(problem.builders[builder].id.slice(1)),
      skill: 1 + problem.activities[activity].modes[mode].crew[demand].skill,
    })),
  }));

/** What a `.dzn` file says of a field, between `=` and `;`. */
export function fieldOf(text: string, name: string): string {
  const found = new RegExp(`^\\s*${name}\\s*=([^;]*);`, 'm').exec(text.replaceAll(/%.*/g, ''));
  if (found === null) throw new Error(`no field ${name}`);
  return found[1];
}

export const numbersOf = (text: string): number[] => (text.match(/-?\d+/g) ?? []).map(Number);

export const setsOf = (text: string): number[][] => (text.match(/\{[^}]*\}/g) ?? []).map(numbersOf);

/** Rows of a table, as they are written. */
export const rowsOf = (text: string): string[] =>
  text
    .replaceAll(/\[\||\|\]/g, '')
    .split('|')
    .filter((row) => row.trim() !== '');

/** Complaints of tasks that are missing or there twice, and of ends before their starts. */
export function eachOnce(done: readonly Done[], tasks: readonly number[]): string[] {
  return tasks.flatMap((task) => {
    const found = done.filter((one) => one.task === task);
    if (found.length !== 1) return [`task ${task} is there ${found.length} times`];
    return found[0].start >= 0 ? [] : [`task ${task} starts before 0`];
  });
}

/** Complaints of successors that start before their predecessor has ended. */
export const inOrder = (
  done: readonly Done[],
  pairs: readonly (readonly [number, number])[],
): string[] =>
  pairs.flatMap(([before, after]) => {
    const first = done.find(({ task }) => task === before);
    const second = done.find(({ task }) => task === after);
    if (first === undefined || second === undefined) return [];
    return second.start >= first.end ? [] : [`${after} starts before ${before} has ended`];
  });
