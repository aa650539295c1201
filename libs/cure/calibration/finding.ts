import { DomainError } from '#kernel/error.ts';

import { cureClock } from '../clock/cure-clock.ts';
import { ageAt } from '../clock/equivalent-age.ts';
import type { TemperatureBand } from '../clock/series.ts';
import { lawOf } from '../material/law.ts';
import type { CureMaterial, Milestone } from '../material/material.ts';
import type { Finding } from './observed.ts';

/** What a builder found, and what it was found on. */
export interface Sighting {
  readonly id: string;
  readonly milestone: Milestone;
  readonly found: Finding['found'];
  /** Which film or cup, as `Finding` has it. */
  readonly film?: string;
  /** As the sheet has it; a factor of the yard's own in it does not count. */
  readonly material: CureMaterial;
  /** What it really was as warm as, as far as is known: the resin for `pot-life`, else the surface. */
  readonly band: TemperatureBand;
  /** Minutes from the origin: laid (mixed, of `pot-life`), and looked at. */
  readonly laid: number;
  readonly at: number;
  /** In the cup, of `pot-life`; null: as many as the sheet's. */
  readonly grams: number | null;
  /** Null: as the material is mixed in the yard. */
  readonly hardenerPercent: number | null;
}

/**
 * How far the sheet's clock had come when it was looked at, over the expected temperatures,
 * neither on the safe side of anything nor corrected by the yard. Throws `cure.reading` where it
 * was looked at before it was laid, `cure.missing` and `cure.hardener` as the clock does.
 */
export function findingOf(sighting: Sighting): Finding {
  const { id, milestone, found, film, band, laid, at } = sighting;
  if (!(at >= laid)) {
    throw new DomainError('cure.reading', `“${id}” was looked at before it was laid`, {
      cure: 'Give the moment of mixing or laying, and a later one at which it was looked at.',
    });
  }
  const clock = cureClock(asMixed(sighting, 1), milestone, 'expected', band);
  const age =
    clock.by.kind === 'age'
      ? ageAt(clock.by.age, at) - ageAt(clock.by.age, laid)
      : factorThatFits(sighting);
  const finding = { id, milestone, found, age: age * massShare(sighting) };
  return film === undefined ? finding : { ...finding, film };
}

/** The material of the sheet with another hardener, and a factor on the milestone's times. */
function asMixed({ material, milestone, hardenerPercent }: Sighting, factor: number): CureMaterial {
  const law = { ...lawOf(material, milestone), factor };
  const { hardener } = material;
  return {
    ...material,
    milestones: { ...material.milestones, [milestone]: law },
    hardener:
      hardener?.kind === 'percent' && hardenerPercent !== null
        ? { ...hardener, used: hardenerPercent }
        : hardener,
  };
}

/** By how much sooner than the sheet's a cup of another mass is expected to gel. */
function massShare({ material, milestone, grams }: Sighting): number {
  if (milestone !== 'pot-life' || grams === null) return 1;
  const { referenceGrams, massPower } = material.mass;
  return (grams / referenceGrams.value) ** massPower.value;
}

/** Of no use beyond: a finding so far off is an outlier either way. */
const FARTHEST = 1e3;

/**
 * The factor on all times by which the milestone would be reached just then, which an age is where
 * there is one; of a law without, whose conversion is integrated again for each factor tried.
 */
function factorThatFits(sighting: Sighting): number {
  const { milestone, band, laid, at } = sighting;
  if (at === laid) return 0;
  const inTime = (factor: number): boolean => {
    const { by } = cureClock(asMixed(sighting, factor), milestone, 'expected', band);
    return by.kind === 'conversion' && by.reached(laid) <= at;
  };
  let [low, high] = [1 / FARTHEST, FARTHEST];
  while (high / low > 1 + 1e-9) {
    const middle = Math.sqrt(low * high);
    if (inTime(middle)) low = middle;
    else high = middle;
  }
  return low;
}
