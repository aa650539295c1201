import { DomainError } from '#kernel/error.ts';

import type { Trust } from '../evidence/evidence.ts';
import { spreadOf } from '../evidence/spread.ts';
import { hardenerFactor } from './hardener.ts';
import type { CureLaw, CureMaterial, Milestone } from './material.ts';
import type { Reckoning } from './rate.ts';

/** A law that reckons from one temperature to others is at least that uncertain (common practice, no source). */
const FALLBACK_SPREAD = 1.25;

/**
 * Hardness does not follow a line between temperatures: how much later than read from its
 * neighbours a row of the published chart T1 is at worst. `clock/published-chart.test.ts`
 * measures it and holds this number to it.
 */
export const HARDNESS_SPREAD = 1.75;

const HARDNESS: ReadonlySet<Milestone> = new Set(['sandable', 'cured']);

/** The spread of a milestone's times where neither source nor yard states one. */
export const lawSpread = (kind: CureLaw['kind'], trust: Trust, milestone: Milestone): number =>
  Math.max(
    spreadOf(trust, 'factor'),
    kind === 'activation' || kind === 'doubling' ? FALLBACK_SPREAD : 1,
    HARDNESS.has(milestone) ? HARDNESS_SPREAD : 1,
  );

/** Throws `cure.missing`, naming the line of the data sheet, where the material has no law for it. */
export function lawOf(material: CureMaterial, milestone: Milestone): CureLaw {
  const law = material.milestones[milestone];
  if (law !== undefined) return law;
  const line = material.missing.find((missing) => missing.milestone === milestone)?.line;
  throw new DomainError(
    'cure.missing',
    `${material.name}: no trustworthy number is known for “${milestone}”`,
    { cure: `Enter “${line ?? milestone}” from the maker’s data sheet.` },
  );
}

/** What all times of a law are multiplied by for a side; throws as `hardenerFactor` does. */
export function timeScale(material: CureMaterial, law: CureLaw, side: Reckoning): number {
  const hardened = law.factor * hardenerFactor(material, side);
  if (side === 'expected') return hardened;
  return side === 'open' ? hardened * law.spread : hardened / law.spread;
}
