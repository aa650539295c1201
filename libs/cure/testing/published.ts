import { level } from '../evidence/figure.ts';
import type { CureMaterial } from '../material/material.ts';
import { cureMaterialOf, limitsOf, tableLaw } from './cure-material.ts';

/**
 * A published chart of a whole cure over eight temperatures, for tests only: pipe-coating
 * epoxy, hand applied, "Powercrete J Gel, Re-coat and Curing Time Chart" (manufacturer's
 * chart, scribd 708897795, read), which also says that below 4 degrees there is no reaction.
 * Its numbers stand here as printed: spread 1.
 */
const SOURCE = 'Powercrete J Gel, Re-coat and Curing Time Chart';
const CELSIUS = [4, 10, 16, 21, 27, 32, 38, 43] as const;

const chart = (minutes: readonly number[]): ReturnType<typeof tableLaw> =>
  tableLaw(
    CELSIUS.map((celsius, k) => [celsius, minutes[k]] as const),
    { trust: 'read', source: SOURCE },
  );

export const GEL = chart([180, 110, 62, 52, 30, 25, 18, 16]);
export const RECOAT_OPENS = chart([170, 100, 57, 47, 25, 20, 15, 13]);
export const RECOAT_CLOSES = chart([360, 235, 150, 116, 75, 58, 37, 31]);
export const DRY = chart([540, 360, 240, 180, 120, 90, 55, 45]);
export const SHORE_D65 = chart([5760, 4500, 1200, 480, 285, 170, 120, 100]);
export const SHORE_D75 = chart([7200, 5700, 1680, 600, 330, 260, 170, 135]);

/** The chart as a material: D65 stands for sandable and D75 for cured. */
export const pipeCoating: CureMaterial = cureMaterialOf({
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
  limits: limitsOf(4, 43, { minimumC: level(4, 'read', SOURCE) }),
});
