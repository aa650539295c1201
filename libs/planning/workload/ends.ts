import type { Procedure } from '../yard/procedures.ts';
import { branchOf } from '../yard/branch.ts';

/**
 * The steps a procedure may begin and end with. A step is not an end only if some step
 * that is done whenever it is (always, or in its own branch) must come after it by a link
 * that holds then; so each way through the choices has its ends among them.
 */
export function endsOf(procedure: Procedure): { first: string[]; last: string[] } {
  const branch = branchOf(procedure);
  const linkBranch = new Map<string, string>();
  for (const choice of procedure.choices) {
    for (const { id, links } of choice.branches)
      for (const link of links) linkBranch.set(link, `${choice.id}/${id}`);
  }
  const preceded = new Set<string>();
  const followed = new Set<string>();
  for (const link of procedure.links) {
    if (link.opens === null) continue;
    const [from, to, when] = [branch.get(link.from), branch.get(link.to), linkBranch.get(link.id)];
    const holdsWith = (step: string | undefined): boolean => when === undefined || when === step;
    if ((from === undefined || from === to) && holdsWith(to)) preceded.add(link.to);
    if ((to === undefined || to === from) && holdsWith(from)) followed.add(link.from);
  }
  const ids = procedure.steps.map((step) => step.id);
  return {
    first: ids.filter((id) => !preceded.has(id)),
    last: ids.filter((id) => !followed.has(id)),
  };
}
