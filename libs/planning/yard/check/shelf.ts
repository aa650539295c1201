import type { Material } from '../materials.ts';
import type { Space, Tool } from '../spaces.ts';
import type { Yard } from '../yard.ts';
import { listed, type Report } from './faults.ts';

/** What procedures refer to. */
export interface Shelf {
  readonly skills: ReadonlyMap<string, Yard['skills'][number]>;
  readonly spaces: ReadonlyMap<string, Space>;
  readonly tools: ReadonlyMap<string, Tool>;
  readonly materials: ReadonlyMap<string, Material>;
  readonly stocks: ReadonlyMap<string, unknown>;
  readonly barriers: ReadonlyMap<string, unknown>;
  readonly slotLists: ReadonlyMap<string, unknown>;
}

/** Adds a fault if the material's sheet has no line for the milestone. */
export function hasLine(
  to: Report,
  material: Material,
  milestone: string,
  why: string,
  path: readonly PropertyKey[],
): void {
  if (material.milestones.some((line) => line.milestone === milestone)) return;
  const lines = listed(material.milestones.map((line) => line.milestone));
  to.add(
    'yard.reference',
    path,
    `the data sheet of ${material.name} has no line "${milestone}", which ${why}; its lines: ${lines}`,
    {
      value: milestone,
      cure: `Add the line "${milestone}" to the sheet of ${material.name}, or use another material or milestone.`,
    },
  );
}
