import { conversionRate } from '#cure/kinetics/conversion.ts';
import { timeScale } from '#cure/material/law.ts';
import type { CureMaterial, Milestone } from '#cure/material/material.ts';
import { rateOf, type Rate } from '#cure/material/rate.ts';

/** How fast an opening reckons that a film nears a milestone; null where no one rate says so. */
function openingRate(material: CureMaterial, milestone: Milestone): Rate | null {
  const law = material.milestones[milestone];
  if (law === undefined) return null;
  const [minimumC, maximumC] = [material.limits.minimumC.value, material.limits.maximumC.value];
  const scale = timeScale(material, law, 'open');
  return law.kind === 'conversion'
    ? conversionRate(law, minimumC, scale)
    : rateOf(law, 'open', minimumC, { maximumC, scale });
}

/**
 * Whether an opening never has a film at `later` before it is at `earlier`: at every half degree
 * at which the material cures, a film that nears one slower gets there later.
 */
export function neverBefore(material: CureMaterial, later: Milestone, earlier: Milestone): boolean {
  if (later === earlier) return true;
  const [slow, fast] = [openingRate(material, later), openingRate(material, earlier)];
  if (slow === null || fast === null) return false;
  const { minimumC, maximumC } = material.limits;
  for (let c = Math.floor(minimumC.value); c <= Math.ceil(maximumC.value); c += 0.5)
    if (slow(c) > fast(c)) return false;
  return true;
}
