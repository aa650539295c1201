import type { CureMaterial, Milestone } from '#cure/material/material.ts';
import type { YardFabric } from '../materials.ts';
import type { Space, Tool } from '../spaces.ts';
import type { Yard } from '../yard.ts';
import { byId, listed, type Report } from './faults.ts';

/** What procedures refer to. */
export interface Shelf {
  readonly skills: ReadonlyMap<string, Yard['skills'][number]>;
  readonly spaces: ReadonlyMap<string, Space>;
  readonly tools: ReadonlyMap<string, Tool>;
  readonly materials: ReadonlyMap<string, unknown>;
  /** Of the materials that can be read: each with its class under it. */
  readonly sheets: ReadonlyMap<string, CureMaterial>;
  readonly fabrics: ReadonlyMap<string, YardFabric>;
  readonly stocks: ReadonlyMap<string, unknown>;
  readonly barriers: ReadonlyMap<string, unknown>;
  readonly slotLists: ReadonlyMap<string, unknown>;
}

export const shelfOf = (yard: Yard, sheets: ReadonlyMap<string, CureMaterial>): Shelf => ({
  skills: byId(yard.skills),
  spaces: byId(yard.spaces),
  tools: byId(yard.tools),
  materials: byId(yard.materials),
  sheets,
  fabrics: byId(yard.fabrics),
  stocks: byId(yard.stocks),
  barriers: byId(yard.barriers),
  slotLists: byId(yard.slotLists),
});

/** Adds a fault if the material's sheet, with its class, has no number for the milestone: it names the line to enter. */
export function hasLine(
  to: Report,
  material: CureMaterial,
  milestone: Milestone,
  why: string,
  path: readonly PropertyKey[],
): void {
  if (material.milestones[milestone] !== undefined) return;
  const lines = listed(Object.keys(material.milestones));
  const line = material.missing.find((one) => one.milestone === milestone)?.line ?? milestone;
  to.add(
    'cure.missing',
    path,
    `the data sheet of ${material.name} has no line "${milestone}", which ${why}; its lines: ${lines}`,
    {
      value: milestone,
      cure: `Enter "${line}" of its data sheet as the line "${milestone}" of ${material.name}, or use another material or milestone.`,
    },
  );
}
