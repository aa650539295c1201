import type { PlanSheet } from '#planning/decode/sheet.ts';
import { type BoatDifference, boatDifferences } from './boats.ts';
import { type PersonDifference, peopleDifferences } from './people.ts';
import { type TaskDifference, taskDifferences } from './tasks.ts';
import { type WindowDifference, windowDifferences } from './windows.ts';
import { wordsOf } from './words.ts';

/** What another plan changes, for those who work to the one before. */
export interface Difference {
  /** Every refit of either, in the order of the later plan. */
  readonly boats: readonly BoatDifference[];
  /** Tasks that have not begun and start at another time, with other people, are new or are gone; by time. */
  readonly tasks: readonly TaskDifference[];
  /** Whom it asks for something else; most first. */
  readonly people: readonly PersonDifference[];
  readonly windows: {
    /** Cure windows that the plan before made use of, and this one does not. */
    readonly lost: readonly WindowDifference[];
    readonly regained: readonly WindowDifference[];
  };
  /** How many tasks. */
  readonly moved: number;
  /** The same in sentences, what weighs most first. */
  readonly words: readonly string[];
}

export interface DifferenceOptions {
  /** ISO instant: what begins in the two days after it is told task by task. */
  readonly now: string;
}

const soonMs = 2 * 24 * 60 * 60_000;

/** What `after` changes against `before`. Work that has begun by `after` is no longer to be moved. */
export function differenceOf(
  before: PlanSheet,
  after: PlanSheet,
  { now }: DifferenceOptions,
): Difference {
  const boats = boatDifferences(before, after);
  const tasks = taskDifferences(before, after);
  const people = peopleDifferences(tasks);
  const windows = windowDifferences(before, after);
  const soon = new Date(Date.parse(now) + soonMs).toISOString();
  const said = { boats, tasks, people, windows, timeZone: after.timeZone, soon };
  return { boats, tasks, people, windows, moved: tasks.length, words: wordsOf(said) };
}
