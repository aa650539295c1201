import type { Hardener } from '#cure/material/material.ts';
import { DomainError } from '#kernel/error.ts';
import { factorOf } from './figures.ts';
import type { Material } from './materials.ts';

interface Range {
  readonly low: number;
  readonly high: number;
}

const pair = ({ low, high }: Range): readonly [number, number] => [low, high];

/**
 * Of peroxide in polyesters, where neither sheet nor class says: published ranges run from 0.5 to
 * 4 %, so that outside 1 to 2 % is warned of and outside 1 to 2.5 % refused.
 */
const PEROXIDE = { warn: { low: 1, high: 2 }, block: { low: 1, high: 2.5 } } as const;
const PEROXIDE_SOURCE = 'common practice: published ranges of peroxide disagree';

/** Lines of the sheet that a percentage needs and neither yard nor class gives. */
export function missingHardenerLines(
  { hardener, resinSystem }: Material,
  base: Hardener | null,
): readonly ('usual' | 'block')[] {
  if (hardener?.kind !== 'percent') return [];
  const known = base?.kind === 'percent';
  const lines: ('usual' | 'block')[] = [];
  if (hardener.usual === null && !known) lines.push('usual');
  if (hardener.block === null && !known && resinSystem === 'epoxy') lines.push('block');
  return lines;
}

/**
 * The yard's hardener: of a percentage field by field over the class's. Its warning range, where
 * the yard gives only the range allowed, is that range. Throws `cure.missing` where a percentage
 * lacks what `missingHardenerLines` names.
 */
export function hardenerOf(material: Material, base: Hardener | null): Hardener | null {
  const { hardener, name, resinSystem } = material;
  const overridden = material.classId !== null;
  const own = factorOf(overridden);
  if (hardener === null) return base;
  if (hardener.kind === 'ratio') {
    const per100 = own(hardener.per100);
    return per100 && { kind: 'ratio', per100 };
  }
  const known = base?.kind === 'percent' ? base : null;
  const usual = own(hardener.usual) ?? known?.usual;
  const peroxide = resinSystem === 'epoxy' ? null : PEROXIDE;
  const stated = hardener.block && pair(hardener.block);
  const whole = stated ?? known?.block ?? (peroxide ? pair(peroxide.block) : undefined);
  if (usual === undefined || whole === undefined) {
    throw new DomainError('cure.missing', `${name}: its sheet says no percentage of hardener`, {
      cure: 'Enter the usual percentage by mass, and the range that the sheet allows.',
    });
  }
  const warn =
    hardener.warn !== null
      ? pair(hardener.warn)
      : hardener.block !== null
        ? whole
        : (known?.warn ?? (peroxide ? pair(peroxide.warn) : whole));
  return {
    kind: 'percent',
    usual,
    used: hardener.used ?? (hardener.usual === null && known ? known.used : usual.value),
    warn,
    block: whole,
    effect: own(hardener.effect) ?? known?.effect ?? null,
    source: hardener.block !== null ? `data sheet of ${name}` : (known?.source ?? PEROXIDE_SOURCE),
  };
}
