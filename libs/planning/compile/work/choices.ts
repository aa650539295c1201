import type { Task, TaskBranch, TaskChoice, Workload } from '../../workload/workload.ts';

/** What is left of the choices once work has begun. */
export interface Standing {
  readonly open: readonly TaskChoice[];
  /** Decided by what was done; `branch` is the index in the choice. */
  readonly decided: readonly { readonly choice: TaskChoice; readonly branch: number }[];
  /** Tasks of branches that can no longer be taken. */
  readonly dropped: ReadonlySet<string>;
  /** Links that hold only in such branches. */
  readonly droppedLinks: ReadonlySet<string>;
}

/**
 * A choice is decided when a task of one branch has begun; or when a task beyond it, to
 * which a link of the choice leads, has begun: then the branch is one with nothing left to do.
 * The foreman's own orders decide none: work that they lead to may begin where the branch they
 * come from is not the plan's.
 */
function decidedBranch(
  choice: TaskChoice,
  begun: ReadonlySet<string>,
  workload: Workload,
): number | null {
  const started = choice.branches.findIndex((branch) =>
    branch.tasks.some((task) => begun.has(task)),
  );
  if (started >= 0) return started;
  const within = new Set(choice.branches.flatMap((branch) => branch.tasks));
  const held = new Set(choice.branches.flatMap((branch) => branch.links));
  const beyond = workload.links.some(
    (link) =>
      link.setBy !== 'foreman' &&
      (held.has(link.id) || within.has(link.from)) &&
      !within.has(link.to) &&
      begun.has(link.to),
  );
  if (!beyond) return null;
  const idle = choice.branches.findIndex((branch) => branch.tasks.length === 0);
  return idle >= 0 ? idle : 0;
}

export function standingOf(workload: Workload): Standing {
  const begun = new Set(
    workload.tasks.filter((task: Task) => task.state !== 'waiting').map(({ id }) => id),
  );
  const open: TaskChoice[] = [];
  const decided: { choice: TaskChoice; branch: number }[] = [];
  const gone: TaskBranch[] = [];
  for (const choice of workload.choices) {
    const branch = decidedBranch(choice, begun, workload);
    if (branch === null) open.push(choice);
    else {
      decided.push({ choice, branch });
      gone.push(...choice.branches.filter((_, k) => k !== branch));
    }
  }
  return {
    open,
    decided,
    dropped: new Set(gone.flatMap((branch) => branch.tasks)),
    droppedLinks: new Set(gone.flatMap((branch) => branch.links)),
  };
}
