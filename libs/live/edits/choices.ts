import { DomainError } from '#kernel/error.ts';
import type { TaskBranch, TaskChoice, TaskLink } from '#planning/workload/workload.ts';
import type { Bypass } from './bypass.ts';
import type { WorkEdits } from './edits.ts';

export interface Chosen {
  /** As they were first, then those that have changed. */
  readonly choices: readonly TaskChoice[];
  /** Links made around what is gone that hold now. */
  readonly made: readonly TaskLink[];
}

/** A branch that lost everything that was to be done in it, by which it was told from the others. */
const isGone = (before: TaskBranch, now: TaskBranch): boolean =>
  before.tasks.length > 0 && now.tasks.length === 0;

const saysSomething = ({ tasks, links }: TaskBranch): boolean => tasks.length + links.length > 0;

const branchKey = (choice: string, branch: string): string => `${choice}/${branch}`;

/** The links that branches get, by `choice/branch`. Throws `record.missing` where there is no such branch. */
export function linksForBranches(
  choices: readonly TaskChoice[],
  branchLinks: WorkEdits['branchLinks'],
): ReadonlyMap<string, readonly string[]> {
  const known = new Set(
    choices.flatMap(({ id, branches }) => branches.map((branch) => branchKey(id, branch.id))),
  );
  const found = new Map<string, string[]>();
  for (const { choice, branch, link } of branchLinks) {
    const key = branchKey(choice, branch);
    if (!known.has(key))
      throw new DomainError('record.missing', `The choice "${choice}" has no branch "${branch}".`);
    found.set(key, [...(found.get(key) ?? []), link]);
  }
  return found;
}

/** What becomes of choices. */
export interface Changes {
  /** Tasks. */
  readonly gone: ReadonlySet<string>;
  /** Those that are left. */
  readonly links: ReadonlySet<string>;
  readonly made: readonly Bypass[];
  /** See `linksForBranches`. */
  readonly given: ReadonlyMap<string, readonly string[]>;
}

/**
 * The choices without tasks and links that are gone, and with the links that branches get. A branch
 * with nothing left to do is no branch any more, unless all are; a choice with less than two of them is
 * none, and what stood in the other holds.
 */
export function choicesWithout(choices: readonly TaskChoice[], changes: Changes): Chosen {
  const { gone, links, made, given } = changes;
  const same: TaskChoice[] = [];
  const changed: TaskChoice[] = [];
  const refused = new Set<string>();
  for (const choice of choices) {
    const touched = choice.branches.some(
      (branch) =>
        branch.tasks.some((task) => gone.has(task)) ||
        branch.links.some((link) => !links.has(link)) ||
        given.has(branchKey(choice.id, branch.id)),
    );
    if (!touched) {
      same.push(choice);
      continue;
    }
    const after = choice.branches.map((branch) => branchAfter(choice.id, branch, changes));
    const left = after.filter((branch, k) => !isGone(choice.branches[k], branch));
    if (!left.some(saysSomething)) continue;
    choice.branches.forEach((branch, k) => {
      if (!isGone(branch, after[k])) return;
      for (const { link, ways } of made) if (standsIn(branch, ways)) refused.add(link.id);
    });
    if (left.length > 1) changed.push({ ...choice, branches: left });
  }
  const holds = made.map(({ link }) => link).filter(({ id }) => !refused.has(id));
  return { choices: [...same, ...changed.map((choice) => only(choice, refused))], made: holds };
}

const standsIn = ({ tasks, links }: TaskBranch, ways: readonly string[]): boolean =>
  ways.some((way) => tasks.includes(way) || links.includes(way));

function branchAfter(
  choice: string,
  branch: TaskBranch,
  { gone, links, made, given }: Changes,
): TaskBranch {
  return {
    ...branch,
    tasks: branch.tasks.filter((task) => !gone.has(task)),
    links: [
      ...branch.links.filter((link) => links.has(link)),
      ...(given.get(branchKey(choice, branch.id)) ?? []),
      ...made.filter(({ ways }) => standsIn(branch, ways)).map(({ link }) => link.id),
    ],
  };
}

const only = (choice: TaskChoice, refused: ReadonlySet<string>): TaskChoice => ({
  ...choice,
  branches: choice.branches.map((branch) => ({
    ...branch,
    links: branch.links.filter((link) => !refused.has(link)),
  })),
});
