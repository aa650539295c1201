import { DomainError } from '#kernel/error.ts';

import type { CureMaterial } from './material.ts';
import type { Reckoning } from './rate.ts';

/**
 * What the yard's percentage of hardener does to all times: (used / usual)^-effect. The effect
 * is known to a factor only, and each side takes the end of it that is safe. 1 where the
 * hardener is mixed in a fixed ratio or the sheet's own percentage is used.
 *
 * Throws `cure.hardener` for a percentage that the sheet does not allow, and `cure.missing`
 * for one other than the usual where nothing says what it does.
 */
export function hardenerFactor(material: CureMaterial, side: Reckoning = 'expected'): number {
  const { hardener, name } = material;
  if (hardener === null || hardener.kind === 'ratio') return 1;
  const { usual, used, block, effect } = hardener;
  const [low, high] = block;
  if (!(used >= low && used <= high)) {
    throw new DomainError(
      'cure.hardener',
      `${name}: ${used} % of hardener is outside the ${low} to ${high} % that it allows`,
      { cure: `Mix ${low} to ${high} % by mass of the resin (${hardener.source}).` },
    );
  }
  if (used === usual.value) return 1;
  if (effect === null) {
    throw new DomainError(
      'cure.missing',
      `${name}: nothing says how its times change from ${usual.value} to ${used} % of hardener`,
      {
        cure: `Enter “effect of hardener on gel time” from the maker’s data sheet, or mix ${usual.value} %.`,
      },
    );
  }
  const ratio = used / usual.value;
  const ends = [effect.value / effect.spread, effect.value * effect.spread].map((p) => ratio ** -p);
  if (side === 'open') return Math.max(...ends);
  return side === 'close' ? Math.min(...ends) : ratio ** -effect.value;
}
