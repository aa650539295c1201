import type { CureMaterial } from '#cure/material/material.ts';
import type { HoldEnd, Step } from '../procedures.ts';
import type { Report } from './faults.ts';
import { hasLine } from './shelf.ts';

/** A milestone that the step's film does not have, or that has no film. `why` ends the message of a missing line. */
export function momentFaults(
  to: Report,
  moment: HoldEnd | null,
  step: Step,
  material: CureMaterial | undefined,
  path: readonly PropertyKey[],
  why = `a link from ${step.name} waits for`,
): void {
  if (moment?.kind !== 'milestone') return;
  const at = [...path, 'milestone'];
  if (step.material === null) {
    to.add(
      'input.field',
      at,
      `${step.name} lays no film, so nothing of it becomes "${moment.milestone}"`,
      {
        value: moment.milestone,
        cure: 'Name the step that applies the material, or wait a number of minutes.',
      },
    );
  } else if (material !== undefined) hasLine(to, material, moment.milestone, why, at);
}
