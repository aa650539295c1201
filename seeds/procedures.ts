import { fairAndSand, gelCoatBuild, hatchNonSkid } from './procedures/finishes.ts';
import { delaminatedPatch, overheadLaminate } from './procedures/laminates.ts';
import { bulkheadTabbed, coredPanel, panelsBonded } from './procedures/panels.ts';
import { craneLift } from './procedures/lift.ts';
import type { ProcedureInput } from './procedures/step.ts';

/** The nine procedures of the trade that every new yard may begin with. */
export const procedures: readonly ProcedureInput[] = [
  coredPanel,
  panelsBonded,
  bulkheadTabbed,
  overheadLaminate,
  fairAndSand,
  gelCoatBuild,
  delaminatedPatch,
  hatchNonSkid,
  craneLift,
];

export const skills = [
  { id: 'joinery', name: 'Joinery' },
  { id: 'laminating', name: 'Laminating' },
  { id: 'fairing', name: 'Fairing' },
  { id: 'finishing', name: 'Finishing' },
];
