import { calibrate } from '#cure/calibration/calibrate.ts';
import type { Calibration } from '#cure/calibration/observed.ts';
import type { MassFit } from '#cure/batch/mass-fit.ts';
import type { CureMaterial, Milestone } from '#cure/material/material.ts';
import { cureMaterial } from '../../yard/cure-material.ts';
import type { Observation } from '../../yard/observed.ts';
import type { Yard } from '../../yard/yard.ts';
import { massFitOf, withMassFit } from './mass-law.ts';
import { measureIn, type Measure } from './measure.ts';
import type { Frame } from '../frame/time.ts';

/** What the yard's observations have made of its materials, by material. */
interface ObservedMaterials {
  readonly materials: ReadonlyMap<string, CureMaterial>;
  readonly calibrations: ReadonlyMap<string, readonly Calibration[]>;
  /** Mass laws of its own cups; none where they do not say, or where the yard states one. */
  readonly massFits: ReadonlyMap<string, MassFit>;
}

function calibrationsOf(
  material: CureMaterial,
  observations: readonly Observation[],
  measure: Measure,
): Calibration[] {
  const milestones = new Set<Milestone>(observations.map(({ milestone }) => milestone));
  return [...milestones].flatMap((milestone) => {
    const law = material.milestones[milestone];
    // Without a number on the sheet there is nothing that a factor could be put to.
    if (law === undefined) return [];
    const findings = observations
      .filter((one) => one.milestone === milestone)
      .map((one) => measure(one, material, one.grams));
    return [calibrate(law.spread, findings)];
  });
}

/** The yard's materials with its own numbers, and with its own factors from what it has observed. */
export function observedMaterials(yard: Yard, frame: Frame): ObservedMaterials {
  const measure = measureIn(yard, frame);
  const materials = new Map<string, CureMaterial>();
  const calibrations = new Map<string, readonly Calibration[]>();
  const massFits = new Map<string, MassFit>();
  for (const row of yard.materials) {
    const sheet = cureMaterial(row);
    const observations = yard.observations.filter(({ material }) => material === row.id);
    const fit = row.massPower === null ? massFitOf(sheet, observations, measure) : null;
    if (fit !== null) massFits.set(row.id, fit);
    const own = calibrationsOf(withMassFit(sheet, fit), observations, measure);
    calibrations.set(row.id, own);
    materials.set(row.id, withMassFit(own.length === 0 ? sheet : cureMaterial(row, own), fit));
  }
  return { materials, calibrations, massFits };
}
