import { findingOf } from '#cure/calibration/finding.ts';
import type { Finding } from '#cure/calibration/observed.ts';
import { behind, SETTLED } from '#cure/climate/heat-store.ts';
import type { CureMaterial } from '#cure/material/material.ts';
import { DomainError, fault } from '#kernel/error.ts';
import { pathOf } from '../../yard/path.ts';
import type { Observation } from '../../yard/observed.ts';
import type { Space } from '../../yard/spaces.ts';
import type { Yard } from '../../yard/yard.ts';
import { climateOver } from '../climate/climate.ts';
import type { Frame } from '../frame/time.ts';

/** An observation measured by a material's sheet, in a cup of so many grams (null: the sheet's cup). */
export type Measure = (
  observation: Observation,
  material: CureMaterial,
  grams: number | null,
) => Finding;

function spaceOf(yard: Yard, id: string): Space {
  const found = yard.spaces.find((space) => space.id === id);
  if (found === undefined) throw new DomainError('yard.reference', `there is no space "${id}"`);
  return found;
}

/** Over the temperatures that the film, or the resin of the cup, really had. */
export function measureIn(yard: Yard, frame: Frame): Measure {
  const over = climateOver(yard, frame);
  return (observation, material, grams) => {
    const { id, milestone, found, space, hardenerPercent } = observation;
    const [laid, at] = [frame.minuteOf(observation.laidAt), frame.minuteOf(observation.at)];
    const cup = milestone === 'pot-life';
    const row = yard.materials.find((one) => one.id === material.id);
    const hours = row?.keptLagHours ?? 0;
    const place = spaceOf(yard, cup ? (row?.keptIn ?? space) : space);
    // Long enough for the first temperature, which stands for all before it, to be forgotten.
    const climate = over(place, cup ? laid - SETTLED * hours * 60 : laid, at);
    const band = cup ? behind(climate.air, hours) : climate.surface;
    try {
      // Two cups of one minute are as likely one cup looked at twice.
      const film = `${space}/${String(laid)}`;
      const sighting = { id, milestone, found, film, material, band, laid, at, grams };
      return findingOf({ ...sighting, hardenerPercent });
    } catch (error) {
      if (!(error instanceof DomainError)) throw error;
      const path = pathOf(['observations', yard.observations.indexOf(observation)]);
      const { code, message, cure } = error;
      const faults = [fault(code, path, message, { value: id, cure })];
      throw new DomainError(code, message, { cure, faults });
    }
  };
}
