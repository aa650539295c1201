import type { Procedure } from './procedures.ts';

/** In which branch a step stands, as `choice/branch`; absent for a step that is always done. */
export function branchOf(procedure: Procedure): ReadonlyMap<string, string> {
  const found = new Map<string, string>();
  for (const choice of procedure.choices) {
    for (const branch of choice.branches)
      for (const step of branch.steps) found.set(step, `${choice.id}/${branch.id}`);
  }
  return found;
}
