import { hardenerWarning } from '#cure/batch/weigh.ts';
import type { Yard } from '../yard.ts';
import { bondFindings, type Warning } from './bonds/bonds.ts';
import { report } from './faults.ts';
import { materialFaults } from './materials.ts';

/**
 * What is to be looked at in a yard that may be planned all the same: bonds that nothing prepares
 * where a procedure declares no preparation at all, what the rules of bonding call contested, and
 * hardener outside its usual range.
 */
export function yardWarnings(yard: Yard): readonly Warning[] {
  const sheets = materialFaults(report(), yard);
  const mixed = yard.materials.flatMap((material, m): Warning[] => {
    const sheet = sheets.get(material.id);
    const message = sheet === undefined ? null : hardenerWarning(sheet);
    return message === null
      ? []
      : [{ path: `materials[${String(m)}].hardener`, message, source: null }];
  });
  return [...mixed, ...bondFindings(yard, sheets).warnings];
}
