import { DomainError } from '#kernel/error.ts';

import type { BondAnswer, NextCoat, PreparationKind, Surface } from './bond.ts';
import { stillToDo } from './preparation.ts';
import { holds, type BondRule, type Needed } from './rule.ts';
import { BOND_RULES } from './rules.ts';

/** Under it nothing else can be done. */
const PEEL: readonly Needed[] = [{ kind: 'peel' }];

/** Dust on a surface that needs no abrading. */
const DUST: readonly Needed[] = [{ kind: 'extract' }, { kind: 'wipe' }];

/** What a rule asks for, and what any surface like this one needs: its peel ply off, its dust taken up. */
function askedOf({ preparation }: BondRule, { kind, done }: Surface): readonly Needed[] {
  const asks = (step: PreparationKind): boolean => preparation.some((one) => one.kind === step);
  const covered = kind === 'peel-ply' && !asks('peel');
  const dusty = done.some((one) => one.kind === 'abrade') && !asks('extract');
  return [...(covered ? PEEL : []), ...preparation, ...(dusty ? DUST : [])];
}

/**
 * How the next coat bonds to a surface, what has still to be done first, and why: by the first
 * of `BOND_RULES` that holds.
 */
export function bondOf(surface: Surface, next: NextCoat): BondAnswer {
  const rule = BOND_RULES.find(({ when }) => holds(when, surface, next));
  if (rule === undefined) throw new DomainError('cure.bond', 'No rule of bonding holds');
  const { id, bond, warnings, reason, trust, source } = rule;
  const bonds = bond === 'chemical' || bond === 'mechanical';
  const preparation = bonds ? stillToDo(askedOf(rule, surface), surface.done) : [];
  return { rule: id, bond, preparation, warnings, reason, trust, source };
}
