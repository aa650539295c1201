/** What is said where a task is put somewhere by hand. Facts come in, words go out. */

/** `1`, `1 or 2`, `1, 2 or 3`. */
const choice = new Intl.ListFormat('en', { type: 'disjunction' });

export const wrongSize = (task: string, may: readonly number[], given: number): string =>
  may.at(-1) === 0
    ? `${task} waits for a word, and takes nobody`
    : `${task} was planned to be done by ${choice.format(may.map(String))}, not by ${String(given)}`;

const all = new Intl.ListFormat('en');
const have = ({ length }: readonly string[]): string => (length === 1 ? 'has' : 'have');

export const notAble = (people: readonly string[], task: string): string =>
  `${all.format(people)} ${have(people)} not the skill, or not the level of it, that ${task} asks for`;

export const learnAlone = (people: readonly string[], task: string): string =>
  `${all.format(people)} still ${people.length === 1 ? 'learns' : 'learn'} what ${task} asks for, and somebody above that has to be on it too`;

export const noShift = (person: string, task: string): string =>
  `${person} has no shift from then on in which ${task} can be done`;

export const begun = (task: string): string => `${task} has begun, and stays where it is`;

export const past = (task: string, now: string): string =>
  `${task} cannot begin before ${now}, which is now`;

/** A sentence about another task, and where that stands in the plan. */
export const butPlanned = (sentence: string, planned: string): string =>
  `${sentence}, and is planned for ${planned}`;

/** A rule of the yard, and who would break it. */
export const broken = (rule: string, tasks: readonly string[]): string =>
  `${rule[0].toUpperCase()}${rule.slice(1)}${tasks.length === 0 ? '' : `: ${all.format(tasks)}`}`;

export const finishes = (refit: string, finish: string, before: string): string =>
  `${refit} would be finished ${finish}, not ${before}`;

export const breaksPromise = (refit: string, promised: string): string =>
  `${refit} is promised for ${promised}`;
