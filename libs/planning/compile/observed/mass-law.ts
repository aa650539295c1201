import { massFit, type MassFit } from '#cure/batch/mass-fit.ts';
import { figure } from '#cure/evidence/figure.ts';
import { spreadOf } from '#cure/evidence/spread.ts';
import type { CureMaterial } from '#cure/material/material.ts';
import { DomainError } from '#kernel/error.ts';
import type { Observation } from '../../yard/observed.ts';
import type { Measure } from './measure.ts';

/** How mass shortens the pot life of a yard's own cups; null where they do not say. */
export function massFitOf(
  material: CureMaterial,
  observations: readonly Observation[],
  measure: Measure,
): MassFit | null {
  if (material.milestones['pot-life'] === undefined) return null;
  const cups = observations.flatMap((one) => {
    const timed = one.milestone === 'pot-life' && one.found === 'just-now';
    if (!timed || one.grams === null) return [];
    return [{ id: one.id, grams: one.grams, age: measure(one, material, null).age }];
  });
  try {
    return massFit(cups, material.mass.referenceGrams.value);
  } catch (error) {
    // Too few, too much alike, or the larger lasted longer: then the sheet's law stands.
    if (error instanceof DomainError) return null;
    throw error;
  }
}

/** As many standard errors as nine in ten of the truths lie within. */
const ERRORS = 1.645;

/** The material with the power of that fit in the place of the sheet's. */
export function withMassFit(material: CureMaterial, fit: MassFit | null): CureMaterial {
  if (fit === null) return material;
  const { power, error, words } = fit;
  const spread = power === 0 ? 1 : (power + ERRORS * error) / power;
  const least = spreadOf('measured', 'factor');
  const massPower = figure(power, 'measured', words, Math.max(least, spread));
  return { ...material, mass: { ...material.mass, massPower: { ...massPower, overridden: true } } };
}
