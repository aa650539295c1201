import { materialFaults as sheetFaults } from '#cure/material/faults.ts';
import { cureMaterial } from '../cure-material.ts';
import { pathOf } from '../path.ts';
import type { Material } from '../materials.ts';
import type { Yard } from '../yard.ts';
import { uniqueIds, type Report } from './faults.ts';

function sheet(to: Report, material: Material, path: readonly PropertyKey[]): void {
  const index = new Map<string, number>();
  material.milestones.forEach(({ milestone }, k) => {
    if (index.has(milestone)) {
      to.add(
        'yard.duplicate',
        [...path, 'milestones', k, 'milestone'],
        `${material.name} has two lines for "${milestone}"`,
        {
          value: milestone,
          cure: 'Keep one line for the milestone.',
        },
      );
    } else index.set(milestone, k);
  });
  const whole = pathOf(path);
  for (const found of sheetFaults(cureMaterial(material), whole)) {
    // The cure library keeps the lines by name, the yard file in a list.
    const here = found.path.replace(
      /\.milestones\.([a-z-]+)/,
      (_, name: string) => `.milestones[${String(index.get(name))}]`,
    );
    to.faults.push({ ...found, path: here, message: `${material.name}: ${found.message}` });
  }
}

/** Ids and data sheets of materials. */
export function materialFaults(to: Report, yard: Yard): void {
  uniqueIds(
    to,
    'material',
    yard.materials.map((row, k) => ({ row, path: ['materials', k] })),
  );
  yard.materials.forEach((material, m) => {
    sheet(to, material, ['materials', m]);
  });
}
