import { DomainError } from '#kernel/error.ts';
import type { CureMaterial } from '../material/material.ts';
import { round, shown } from './words.ts';

/** What goes on the scales for one amount of mix. */
export interface Weighed {
  readonly resinGrams: number;
  readonly hardenerGrams: number;
  /** Null where the hardener's density is not known. */
  readonly hardenerMl: number | null;
  /** Kilograms per litre, behind the millilitres. */
  readonly hardenerDensity: number | null;
  /** As weighed, and what a measure by volume would make of the same figure. */
  readonly ratio: string;
}

/** A tenth; of less than a gram a hundredth, which such scales show, as a tenth might be none of it. */
const onScales = (amount: number): number => round(amount, amount < 1 ? 2 : 1);

/** Resin without any would never cure. */
const LEAST = 0.01;

type Mixed = Pick<CureMaterial, 'name' | 'hardener' | 'hardenerDensity'>;

/** Grams of hardener to a gram of resin, in words too. */
function shareOf({ name, hardener, hardenerDensity }: Mixed): { share: number; ratio: string } {
  if (hardener === null) {
    throw new DomainError('cure.missing', `${name} has no mixing ratio`, {
      cure: 'Enter the line "hardener" of its data sheet: percent by mass, or grams to 100 g of resin.',
    });
  }
  if (hardener.kind === 'ratio') {
    const { value } = hardener.per100;
    if (value > 0) return { share: value / 100, ratio: `${shown(value, 1)} g to 100 g of resin` };
    throw new DomainError('cure.hardener', `${name}: ${String(value)} g to 100 g is no ratio`);
  }
  const { used, block } = hardener;
  if (!(used >= block[0] && used <= block[1] && used > 0)) {
    throw new DomainError(
      'cure.hardener',
      `${name} is mixed with ${shown(used, 2)} % hardener, outside ${shown(block[0], 2)} to ${shown(block[1], 2)} %`,
    );
  }
  // "2 %" is read by some as 20 ml to the kilogram (Scott Bader's convention, read), which is more.
  const byVolume =
    hardenerDensity === null
      ? ''
      : ` (${shown(used * 10, 1)} ml to 1 kg would be ${shown(used * hardenerDensity.value, 2)} %)`;
  return { share: used / 100, ratio: `${shown(used, 2)} % of the resin by mass${byVolume}` };
}

/**
 * Resin and hardener for so much mix, to a tenth of a gram and millilitre (of less than 1 to a
 * hundredth, and never less than that). Drops are no
 * measure (published charts differ 2.5 times between makers), so there is none of them. Throws
 * `cure.missing` without a ratio and `cure.hardener` outside the range that is blocked.
 */
export function weigh(material: Mixed, mixGrams: number): Weighed {
  if (!(mixGrams > 0) || !Number.isFinite(mixGrams))
    throw new DomainError('input.field', `${String(mixGrams)} g of mix cannot be weighed`);
  const { share, ratio } = shareOf(material);
  const exact = (mixGrams * share) / (1 + share);
  const hardenerGrams = Math.max(LEAST, onScales(exact));
  const density = material.hardenerDensity?.value ?? null;
  return {
    // What rounding takes from the one goes to the other.
    resinGrams: round(mixGrams - hardenerGrams, hardenerGrams < 1 ? 2 : 1),
    hardenerGrams,
    hardenerMl: density === null ? null : Math.max(LEAST, onScales(exact / density)),
    hardenerDensity: density,
    ratio,
  };
}

/** What is to be said of a percentage that may be mixed but is unusual; null where nothing is. */
export function hardenerWarning({ name, hardener }: Mixed): string | null {
  if (hardener?.kind !== 'percent') return null;
  const { used, warn, source } = hardener;
  if (used >= warn[0] && used <= warn[1]) return null;
  return `${name} is mixed with ${shown(used, 2)} % hardener, outside the usual ${shown(warn[0], 2)} to ${shown(warn[1], 2)} % (${source})`;
}
