import type { CureMaterial, CureRow, CureTable } from '../material/material.ts';

/**
 * A published chart of a whole cure over eight temperatures, for tests only: pipe-coating
 * epoxy, hand applied, "Powercrete J Gel, Re-coat and Curing Time Chart" (manufacturer's
 * chart, scribd 708897795), which also says that below 4 degrees there is no reaction.
 */
const SOURCE = 'Powercrete J Gel, Re-coat and Curing Time Chart';
const CELSIUS = [4, 10, 16, 21, 27, 32, 38, 43] as const;

const table = (minutes: readonly number[]): CureTable => ({
  rows: CELSIUS.map((celsius, k): CureRow => ({ celsius, minutes: minutes[k] })),
  source: SOURCE,
});

export const GEL = table([180, 110, 62, 52, 30, 25, 18, 16]);
export const RECOAT_OPENS = table([170, 100, 57, 47, 25, 20, 15, 13]);
export const RECOAT_CLOSES = table([360, 235, 150, 116, 75, 58, 37, 31]);
export const DRY = table([540, 360, 240, 180, 120, 90, 55, 45]);
export const SHORE_D65 = table([5760, 4500, 1200, 480, 285, 170, 120, 100]);
export const SHORE_D75 = table([7200, 5700, 1680, 600, 330, 260, 170, 135]);

/** The chart as a material: D65 stands for sandable and D75 for cured. */
export const pipeCoating: CureMaterial = {
  id: 'pipe-coating',
  name: 'Pipe-coating epoxy',
  milestones: {
    gel: GEL,
    'bond-opens': RECOAT_OPENS,
    'bond-closes': RECOAT_CLOSES,
    'tack-free': DRY,
    sandable: SHORE_D65,
    cured: SHORE_D75,
  },
  minimumC: 4,
  belowMinimum: 'stalls',
  maximumC: 43,
};
