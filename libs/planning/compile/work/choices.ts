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

/** What decides a choice, whatever has begun by now. */
export interface Decider {
  readonly choice: TaskChoice;
  /** Tasks beyond the choice, to which a link of it leads. */
  readonly beyond: readonly string[];
}

/**
 * What decides each choice. The foreman's own orders decide none: work that they lead to may begin
 * where the branch they come from is not the plan's.
 */
export function decidersOf({ links, choices }: Pick<Workload, 'links' | 'choices'>): Decider[] {
  if (choices.length === 0) return [];
  const byId = new Map(links.map((link) => [link.id, link]));
  const outOf = Map.groupBy(links, ({ from }) => from);
  return choices.map((choice) => {
    const within = new Set(choice.branches.flatMap((branch) => branch.tasks));
    const held = choice.branches.flatMap((branch) => branch.links);
    const leading = [
      ...held.flatMap((id) => byId.get(id) ?? []),
      ...[...within].flatMap((id) => outOf.get(id) ?? []),
    ];
    const beyond = leading.flatMap(({ setBy, to }) =>
      setBy === 'foreman' || within.has(to) ? [] : [to],
    );
    return { choice, beyond: [...new Set(beyond)] };
  });
}

/**
 * A choice is decided when a task of one branch has begun; or when a task beyond it, to
 * which a link of the choice leads, has begun: then the branch is one with nothing left to do.
 */
function decidedBranch({ choice, beyond }: Decider, begun: ReadonlySet<string>): number | null {
  const started = choice.branches.findIndex((branch) =>
    branch.tasks.some((task) => begun.has(task)),
  );
  if (started >= 0) return started;
  if (!beyond.some((task) => begun.has(task))) return null;
  const idle = choice.branches.findIndex((branch) => branch.tasks.length === 0);
  return idle >= 0 ? idle : 0;
}

/** `deciders`: those of this workload, where they are known. */
export function standingOf(
  workload: Workload,
  deciders: readonly Decider[] = decidersOf(workload),
): Standing {
  const begun = new Set(
    workload.tasks.flatMap(({ id, state }: Task) => (state === 'waiting' ? [] : [id])),
  );
  const open: TaskChoice[] = [];
  const decided: { choice: TaskChoice; branch: number }[] = [];
  const gone: TaskBranch[] = [];
  for (const decider of deciders) {
    const { choice } = decider;
    const branch = decidedBranch(decider, begun);
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
