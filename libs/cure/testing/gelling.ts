import { cureClock, reachedAt } from '../clock/cure-clock.ts';
import { constantBand } from '../clock/series.ts';
import type { CureLaw, CureMaterial } from '../material/material.ts';
import type { Reckoning } from '../material/rate.ts';
import { cureMaterialOf, limitsOf } from './cure-material.ts';

/** A material that gels by a law, to be used at 5 to 40 degrees unless `change` says otherwise. */
export const gelling = (law: CureLaw, change: Partial<CureMaterial> = {}): CureMaterial =>
  cureMaterialOf({ milestones: { gel: law }, limits: limitsOf(5, 40), ...change });

/** Whole minutes until it gels at one temperature. */
export const gelMinutes = (
  material: CureMaterial,
  side: Reckoning,
  celsius: number,
): number | null => reachedAt(cureClock(material, 'gel', side, constantBand(celsius)), 0);
