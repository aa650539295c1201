import { standingOf } from '#planning/compile/work/choices.ts';
import type { TaskWindow } from '#planning/decode/ready/windows.ts';
import type { Task, Workload } from '#planning/workload/workload.ts';

/** A task that waits, and the links into it whose windows nobody can keep any more. */
export interface Late {
  readonly task: Task;
  readonly linkIds: readonly string[];
}

/** Windows that shut while there is another way to do the work: the plan has to take that. */
export interface OtherWay extends Late {
  /** Names of the branches that are still open. */
  readonly ways: readonly string[];
}

interface Shut {
  readonly late: readonly Late[];
  readonly otherWays: readonly OtherWay[];
}

/** Somebody has it in hand and may be quicker than the nominal rate: its window counts to its very end. */
type InHand = (taskId: string) => boolean;

const NONE: ReadonlySet<string> = new Set();

const isShut = ({ closesAt, startBy }: TaskWindow, now: number, inHand: boolean): boolean => {
  const by = inHand ? closesAt : (startBy ?? closesAt);
  return by !== null && Date.parse(by) <= now;
};

/**
 * What is late, of all windows into work that waits. A window that stands in a branch of a choice that
 * nobody has made is missed only where no other branch is left. Those of `hopeless` links, which nobody can
 * come to in time, count as shut before they are, unless somebody has that work in hand.
 */
export function shutWindows(
  workload: Workload,
  windows: readonly TaskWindow[],
  inHand: InHand,
  now: Date,
  hopeless: ReadonlySet<string> = NONE,
): Shut {
  const tasks = new Map(workload.tasks.map((task) => [task.id, task]));
  const at = now.getTime();
  const isLost = (window: TaskWindow): boolean =>
    isShut(window, at, inHand(window.to)) || (hopeless.has(window.linkId) && !inHand(window.to));
  const shut = windows.filter(
    (window) => tasks.get(window.to)?.state === 'waiting' && isLost(window),
  );
  const closed = new Set([...shut.map(({ linkId }) => linkId), ...hopeless]);
  const { open } = standingOf(workload);
  const ways = new Map<string, readonly string[]>();
  for (const choice of open) {
    const left = choice.branches.filter(({ links }) => !links.some((link) => closed.has(link)));
    if (left.length === 0) continue;
    for (const branch of choice.branches)
      for (const link of branch.links)
        ways.set(
          link,
          left.map(({ name }) => name),
        );
  }
  const byTask = Map.groupBy(shut, ({ to }) => to);
  const late: Late[] = [];
  const otherWays: OtherWay[] = [];
  for (const [id, list] of byTask) {
    const task = tasks.get(id);
    if (task === undefined) continue;
    const firm = list.filter(({ linkId }) => !ways.has(linkId)).map(({ linkId }) => linkId);
    if (firm.length > 0) late.push({ task, linkIds: firm });
    const soft = list.filter(({ linkId }) => ways.has(linkId)).map(({ linkId }) => linkId);
    const names = [...new Set(soft.flatMap((linkId) => ways.get(linkId) ?? []))];
    if (soft.length > 0) otherWays.push({ task, linkIds: soft, ways: names });
  }
  return { late, otherWays };
}
