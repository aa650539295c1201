import type { Fabric } from './amounts.ts';

/**
 * Millimetres that one ply adds: t = w / 3.072 (2.56 / g - 1.36), w in kg/m² of dry glass, g
 * the glass's share of the mass. Lloyd's Register and ISO 12215-5, from memory; it holds the
 * densities 2.56 of glass and 1.2 of resin.
 */
export function laminateMm({
  gramsPerM2,
  resinRatio,
}: Pick<Fabric, 'gramsPerM2' | 'resinRatio'>): number {
  const share = 1 / (1 + resinRatio);
  return (gramsPerM2 / 1000 / 3.072) * (2.56 / share - 1.36);
}
