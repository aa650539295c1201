import type { Figure } from '../evidence/evidence.ts';
import { conversionMinutes } from '../kinetics/conversion.ts';
import { timeScale } from '../material/law.ts';
import type { CureMaterial, Milestone } from '../material/material.ts';
import { rateOf } from '../material/rate.ts';

/** Minutes to a milestone at one temperature, as a closing reckons: no longer than the truth. */
function soonest(material: CureMaterial, milestone: Milestone, celsius: number): number | null {
  const law = material.milestones[milestone];
  if (law === undefined) return null;
  const scale = timeScale(material, law, 'close');
  if (law.kind === 'conversion') return conversionMinutes(law, celsius, scale);
  return scale / rateOf(law, 'close', material.limits.minimumC.value)(celsius);
}

/** Times so many as `ratio` to minus the power, the power's spread on the side of the shorter life. */
const shrunk = (ratio: number, { value, spread }: Figure): number =>
  ratio ** -(ratio >= 1 ? value * spread : value / spread);

/**
 * What mass and thickness make of a sheet's pot life, as a factor. `mm` null, or thinner than
 * in the sheet's cup: it stands as thick as there, since what is not yet spread does. No mix
 * outlasts its film, and where the sheet has no open time to say how long that lasts, none is
 * taken to outlast the sheet's cup.
 */
export function massFactor(material: CureMaterial, grams: number, mm: number | null): number {
  const { referenceGrams, referenceMm, massPower, thicknessPower } = material.mass;
  const thick = Math.max(1, (mm ?? 0) / referenceMm.value);
  const factor = shrunk(grams / referenceGrams.value, massPower) * shrunk(thick, thicknessPower);
  return material.milestones['open-time'] === undefined ? Math.min(1, factor) : factor;
}

/**
 * Minutes until so many grams of mix gel where they stand `mm` thick, not rounded, on the safe
 * side of what is known; never longer than the film's open time. Null where the sheet has no pot
 * life, or colder or warmer than the material may be mixed in.
 */
export function potLifeOf(
  material: CureMaterial,
  celsius: number,
  grams: number,
  mm: number | null,
): number | null {
  const { minimumC, maximumC } = material.limits;
  if (!(celsius >= minimumC.value && celsius <= maximumC.value)) return null;
  const sheet = soonest(material, 'pot-life', celsius);
  if (sheet === null) return null;
  const film = soonest(material, 'open-time', celsius);
  return Math.min(sheet * massFactor(material, grams, mm), film ?? Infinity);
}
