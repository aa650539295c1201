import type { PlanSheet, SheetTask, SheetWindow, When } from '#planning/decode/sheet.ts';
import { hasBegun } from './tasks.ts';

/** A window that shuts, of work that waits for it. */
export interface WindowDifference {
  readonly linkId: string;
  /** `bond`, `tack`, … as in the sheet. */
  readonly kind: string;
  readonly boatId: string;
  readonly boat: string;
  readonly part: string;
  readonly fromTask: string;
  readonly from: string;
  readonly toTask: string;
  readonly to: string;
  /** In the plan that makes use of it. */
  readonly closes: When;
}

interface Shutting {
  readonly task: SheetTask;
  readonly window: SheetWindow;
  readonly closes: When;
}

/** By link; of several of one link (a batch, a choice) the last. */
function shutting({ tasks }: PlanSheet): Map<string, Shutting> {
  const found = new Map<string, Shutting>();
  for (const task of tasks)
    for (const window of task.windows)
      if (window.closes !== null) found.set(window.linkId, { task, window, closes: window.closes });
  return found;
}

/** Branches by part: where they differ, work is done another way there. */
const ways = ({ choices }: PlanSheet): ReadonlyMap<string, string> => {
  const found = new Map<string, string>();
  for (const { partId, id, branch } of choices)
    found.set(partId, `${found.get(partId) ?? ''}${id}:${branch} `);
  return found;
};

/**
 * Windows of `one` that `other` has no use for: the film is still there, and what was to come in
 * its window comes after it or is done another way. Work that is not to be done any more, on a
 * part that was dropped, say, has lost no window.
 */
function unused(one: PlanSheet, other: PlanSheet): WindowDifference[] {
  const there = shutting(other);
  const tasks = new Map(other.tasks.map((task) => [task.id, task]));
  const waysOfOne = ways(one);
  const waysOfOther = ways(other);
  return [...shutting(one).values()].flatMap(({ task, window, closes }): WindowDifference[] => {
    if (there.has(window.linkId) || !tasks.has(task.id)) return [];
    const follower = tasks.get(window.toTask);
    const otherWay = waysOfOne.get(task.partId) !== waysOfOther.get(task.partId);
    if (follower === undefined ? !otherWay : hasBegun(follower)) return [];
    return [
      {
        linkId: window.linkId,
        kind: window.kind,
        boatId: task.boatId,
        boat: task.boat,
        part: task.part,
        fromTask: task.id,
        from: task.name,
        toTask: window.toTask,
        to: window.toName,
        closes,
      },
    ];
  });
}

export const windowDifferences = (
  before: PlanSheet,
  after: PlanSheet,
): { readonly lost: WindowDifference[]; readonly regained: WindowDifference[] } => ({
  lost: unused(before, after),
  regained: unused(after, before),
});
