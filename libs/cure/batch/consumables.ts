import { DomainError } from '#kernel/error.ts';
import type { PreparationKind } from '../bond/bond.ts';
import type { Evidence } from '../evidence/evidence.ts';
import { round } from './words.ts';

/** So much of something for each square metre and pass of a kind of preparation. */
export interface ConsumableRate extends Evidence {
  readonly id: string;
  readonly name: string;
  readonly unit: string;
  readonly of: PreparationKind;
  readonly perM2: number;
}

export interface ConsumableAmount extends Evidence {
  readonly id: string;
  readonly name: string;
  readonly unit: string;
  readonly amount: number;
}

const rate = (
  of: PreparationKind,
  id: string,
  name: string,
  unit: string,
  perM2: number,
): ConsumableRate => ({
  id,
  name,
  unit,
  of,
  perM2,
  trust: 'practice',
  source: 'common practice, no source',
});

/** For ordering, not for a budget: no measured source was found, so a yard puts in its own. */
export const CONSUMABLE_RATES: readonly ConsumableRate[] = [
  rate('dewax', 'dewaxing-solvent', 'Dewaxing solvent', 'l', 0.1),
  rate('dewax', 'wipe', 'White lint-free wipe', 'piece', 3),
  rate('wash', 'wash-pad', 'Abrasive wash pad', 'piece', 0.25),
  rate('wash', 'paper-towel', 'Plain paper towel', 'sheet', 6),
  rate('abrade', 'abrasive', 'Abrasive disc or sheet', 'piece', 1),
  rate('extract', 'dust-bag', 'Dust bag', 'piece', 0.05),
  rate('wipe', 'wiping-solvent', 'Wiping solvent', 'l', 0.05),
  rate('wipe', 'wipe', 'White lint-free wipe', 'piece', 2),
];

/**
 * What preparing an area uses up, by its kinds and passes, amounts to a hundredth; the same
 * thing for two kinds is one row. Throws `input.field` of no area.
 */
export function consumablesOf(
  areaM2: number,
  preparations: readonly { readonly kind: PreparationKind; readonly passes: number }[],
  rates: readonly ConsumableRate[] = CONSUMABLE_RATES,
): ConsumableAmount[] {
  if (!(areaM2 > 0) || !Number.isFinite(areaM2)) {
    throw new DomainError('input.field', `${String(areaM2)} m² is no area to prepare`, {
      cure: 'Give the area of the part in m², more than 0.',
    });
  }
  const found = new Map<string, ConsumableAmount>();
  for (const { kind, passes } of preparations) {
    for (const { of, perM2, ...thing } of rates) {
      if (of !== kind) continue;
      const amount = (found.get(thing.id)?.amount ?? 0) + perM2 * areaM2 * passes;
      found.set(thing.id, { ...thing, amount });
    }
  }
  return [...found.values()].map((row) => ({ ...row, amount: round(row.amount, 2) }));
}
