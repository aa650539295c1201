import type { Part } from '#planning/yard/boats.ts';
import type { Task, TaskChoice, TaskLink } from '#planning/workload/workload.ts';

/** A part's new measures; what is left out stays. */
export interface NewSize {
  readonly partId: string;
  readonly areaM2?: number | undefined;
  readonly edgeM?: number | undefined;
  readonly jointM?: number | undefined;
}

/**
 * What a snag, a missed window or a change order does to the work that is left. History stays: a task
 * that has begun is only ever marked (`redo`), one that has not is dropped, never deleted. Applying
 * the same edits to the same yard and work gives the same, wherever it is done (`applyEdits`).
 */
export interface WorkEdits {
  /** Part of the rework `rework` each; `replaces` says which task it does again. */
  readonly addTasks: readonly Task[];
  readonly addLinks: readonly TaskLink[];
  /** Ways to do added tasks, of which one is taken. */
  readonly addChoices: readonly TaskChoice[];
  /** Added links that count only in a branch of a choice there is: they take the place of removed ones. */
  readonly branchLinks: readonly {
    readonly choice: string;
    readonly branch: string;
    readonly link: string;
  }[];
  /**
   * Added tasks that a surface which stays open until it is covered is open for no longer than, besides
   * those that were to cover it: whoever grinds it need not mind their own dust.
   */
  readonly covers: readonly { readonly task: string; readonly by: string }[];
  /** Ids; a branch that has one loses it. */
  readonly removeLinks: readonly string[];
  /** Done tasks that do not count any more. */
  readonly redo: readonly string[];
  /** Waiting tasks that are not to be done. */
  readonly drop: readonly string[];
  readonly resize: readonly NewSize[];
  /** With their jobs, whose tasks follow from the procedures. */
  readonly addParts: readonly { readonly refitId: string; readonly part: Part }[];
  /** Parts whose waiting tasks are all dropped. */
  readonly dropParts: readonly string[];
}

export const noEdits: WorkEdits = {
  addTasks: [],
  addLinks: [],
  addChoices: [],
  branchLinks: [],
  covers: [],
  removeLinks: [],
  redo: [],
  drop: [],
  resize: [],
  addParts: [],
  dropParts: [],
};
