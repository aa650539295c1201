import { cureClock, reachedAt } from '../clock/cure-clock.ts';
import { constantBand } from '../clock/series.ts';
import type { CureRow, TableLaw } from '../material/material.ts';
import { cureMaterialOf, tableLaw } from './cure-material.ts';

/** An interior row of a table, and the minutes at its temperature by the table without it. */
export interface LeftOut extends CureRow {
  readonly predicted: number;
}

/** How well each interior row of a table is predicted from the others. */
export const leftOut = ({ rows }: TableLaw): LeftOut[] =>
  rows.slice(1, -1).map((row) => {
    const others = rows.filter((other) => other !== row);
    const law = tableLaw(others.map(({ celsius, minutes }) => [celsius, minutes] as const));
    const material = cureMaterialOf({ milestones: { gel: law } });
    const clock = cureClock(material, 'gel', 'open', constantBand(row.celsius));
    return { ...row, predicted: reachedAt(clock, 0) ?? Infinity };
  });
