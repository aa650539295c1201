import { branchOf } from '../yard/branch.ts';
import type { Procedure } from '../yard/procedures.ts';

/** Whether conditions together hold in every way through the choices in which the step is done. */
function everywhere(
  found: readonly (string | undefined)[],
  own: string | undefined,
  procedure: Procedure,
): boolean {
  if (found.includes(undefined) || (own !== undefined && found.includes(own))) return true;
  return procedure.choices.some((choice) =>
    choice.branches.every((branch) => found.includes(`${choice.id}/${branch.id}`)),
  );
}

/**
 * The steps a procedure may begin and end with. A step is not an end if, whichever branches
 * are taken, some step that is then done must come after it by a link that then holds.
 */
export function endsOf(procedure: Procedure): { first: string[]; last: string[] } {
  const branch = branchOf(procedure);
  const linkBranch = new Map<string, string>();
  for (const choice of procedure.choices) {
    for (const { id, links } of choice.branches) {
      for (const link of links) linkBranch.set(link, `${choice.id}/${id}`);
    }
  }
  const before = new Map<string, (string | undefined)[]>();
  const after = new Map<string, (string | undefined)[]>();
  const note = (
    where: Map<string, (string | undefined)[]>,
    step: string,
    when: string | undefined,
  ): void => {
    where.set(step, [...(where.get(step) ?? []), when]);
  };
  for (const link of procedure.links) {
    if (link.opens === null) continue;
    // The link holds where the other step is done and, if it stands in a branch, that is taken.
    note(before, link.to, linkBranch.get(link.id) ?? branch.get(link.from));
    note(after, link.from, linkBranch.get(link.id) ?? branch.get(link.to));
  }
  const free = (where: ReadonlyMap<string, (string | undefined)[]>): string[] =>
    procedure.steps
      .map(({ id }) => id)
      .filter((id) => !everywhere(where.get(id) ?? [], branch.get(id), procedure));
  return { first: free(before), last: free(after) };
}
