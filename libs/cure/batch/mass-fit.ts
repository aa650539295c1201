import { DomainError } from '#kernel/error.ts';
import { shown } from './words.ts';

/** A cup that was timed: its mass, and how far the sheet's pot life had run when it gelled. */
export interface TimedCup {
  readonly id: string;
  readonly grams: number;
  /** Observed minutes over the sheet's at the temperatures it had. */
  readonly age: number;
}

/** The power of the mass law from a yard's own cups. */
export interface MassFit {
  readonly power: number;
  /** Standard error of the power. */
  readonly error: number;
  /** On all its pot lives, at the sheet's mass. */
  readonly factor: number;
  /** How far single cups are from the law, as a factor. */
  readonly spread: number;
  readonly words: string;
}

const FEWEST = 3;

/** Masses that differ less say next to nothing of how mass counts. */
const APART = 1.5;

function checked(cups: readonly TimedCup[]): void {
  const wrong = cups.find(
    ({ grams, age }) => !(grams > 0 && age > 0 && grams < Infinity && age < Infinity),
  );
  if (wrong !== undefined) {
    throw new DomainError(
      'cure.implausible',
      `cup ${wrong.id}: ${String(wrong.grams)} g gelled at ${String(wrong.age)} of its pot life`,
    );
  }
  const masses = cups.map(({ grams }) => grams);
  if (cups.length < FEWEST || Math.max(...masses) < APART * Math.min(...masses)) {
    throw new DomainError(
      'cure.missing',
      `${String(cups.length)} timed cups do not say how mass counts`,
      {
        cure: `Time ${String(FEWEST)} cups or more, the largest at least ${String(APART)} times the smallest.`,
      },
    );
  }
}

/**
 * Least squares of log(age) on log(grams / reference): age = factor (grams / reference)^-power.
 * Throws `cure.missing` of too few cups or too like masses, and `cure.implausible` where larger
 * cups lasted longer, which something else must have caused.
 */
export function massFit(cups: readonly TimedCup[], referenceGrams: number): MassFit {
  checked(cups);
  const n = cups.length;
  const x = cups.map(({ grams }) => Math.log(grams / referenceGrams));
  const y = cups.map(({ age }) => Math.log(age));
  const mean = (list: readonly number[]): number => list.reduce((sum, one) => sum + one, 0) / n;
  const [mx, my] = [mean(x), mean(y)];
  const sxx = x.reduce((sum, one) => sum + (one - mx) ** 2, 0);
  const sxy = x.reduce((sum, one, k) => sum + (one - mx) * (y[k] - my), 0);
  const slope = sxy / sxx;
  const at = my - slope * mx;
  const rest = y.reduce((sum, one, k) => sum + (one - at - slope * x[k]) ** 2, 0);
  const scatter = Math.sqrt(rest / (n - 2));
  if (slope > 0) {
    throw new DomainError('cure.implausible', 'larger cups lasted longer than smaller ones', {
      cure: 'Check masses and temperatures of the timed cups, and leave out what was cooled.',
    });
  }
  const [power, error, factor, spread] = [
    Math.max(0, -slope),
    scatter / Math.sqrt(sxx),
    Math.exp(at),
    Math.exp(scatter),
  ];
  return {
    power,
    error,
    factor,
    spread,
    words: `${String(n)} cups of ${shown(Math.min(...cups.map(({ grams }) => grams)))} to ${shown(Math.max(...cups.map(({ grams }) => grams)))} g: power ${shown(power, 2)} ± ${shown(error, 2)}, pot life × ${shown(factor, 2)}, single cups within × ${shown(spread, 2)}`,
  };
}
