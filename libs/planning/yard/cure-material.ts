import type { CureMaterial, CureTable, Milestone } from '#cure/material/material.ts';
import type { Material } from './materials.ts';

/** A yard's material as the cure library reads it. Of two tables for one milestone the first counts. */
export function cureMaterial(material: Material): CureMaterial {
  const tables: Partial<Record<Milestone, CureTable>> = {};
  for (const { milestone, rows, source } of material.milestones)
    tables[milestone] ??= { rows, source };
  const { id, name, minimumC, maximumC, belowMinimum } = material;
  return { id, name, milestones: tables, minimumC, maximumC, belowMinimum };
}
