import type { Evidence, Figure } from '../evidence/evidence.ts';

/**
 * What is known of a material that cures. Temperatures in degrees Celsius, times in minutes,
 * shares in percent by mass. A `CureMaterial` is the effective sheet: a generic class of the
 * catalogue with the yard's own data sheet laid over it, every number with its evidence.
 */

/** The stages of a cure; pot life is the cup's, the others the film's. */
export const MILESTONES = [
  'pot-life',
  'open-time',
  'gel',
  'tacky-opens',
  'tacky-closes',
  'bond-opens',
  'bond-closes',
  'tack-free',
  'dust-safe',
  'handle',
  'sandable',
  'cured',
] as const;

export type Milestone = (typeof MILESTONES)[number];

/** What the resin is at heart; fillers and wax do not change it. */
export const BASES = ['polyester', 'vinyl-ester', 'epoxy'] as const;
export type Base = (typeof BASES)[number];

/** What it is mixed for. */
export const USES = ['laminating', 'gel-coat', 'finish', 'glue', 'fairing'] as const;
export type Use = (typeof USES)[number];

/** A surface that air keeps from curing stays tacky for days; a sealed one (wax, epoxy) does not. */
export type SurfaceKind = 'inhibited' | 'sealed';

/** Minutes that a milestone takes at a constant temperature. */
export interface CureRow {
  readonly celsius: number;
  readonly minutes: number;
}

/** One milestone over temperature: at least two rows, ascending, never slower when warmer. */
export interface TableLaw {
  readonly kind: 'table';
  readonly rows: readonly CureRow[];
}

/** Fallback where one temperature is known: Arrhenius with an activation energy from the literature. */
export interface ActivationLaw {
  readonly kind: 'activation';
  readonly at: CureRow;
  readonly kjPerMol: number;
}

/** Fallback of last resort: so many times as long for each 10 degrees colder. */
export interface DoublingLaw {
  readonly kind: 'doubling';
  readonly at: CureRow;
  readonly per10C: number;
}

/**
 * Autocatalytic rate of the Kamal-Sourour form, integrated over the film's own temperatures:
 * da/dt = (k1 + k2 a^m) (1 - a)^n with k = A exp(-E / RT), A per minute, E in J/mol. The
 * milestone is reached when the conversion that began at `initial` comes to `reached`.
 */
export interface ConversionLaw {
  readonly kind: 'conversion';
  readonly k1: { readonly a: number; readonly e: number };
  readonly k2: { readonly a: number; readonly e: number };
  readonly m: number;
  readonly n: number;
  readonly initial: number;
  readonly reached: number;
}

export type CureLaw = (TableLaw | ActivationLaw | DoublingLaw | ConversionLaw) &
  Evidence & {
    /** Factor of at least 1: openings reckon with times that much longer, closings that much shorter. */
    readonly spread: number;
    /** The yard's own factor on all times, from what it observed; 1 where nothing was. */
    readonly factor: number;
    readonly overridden: boolean;
  };

/**
 * How the second part is measured. `percent`: a catalyst, percent by mass of the resin, in a
 * range that the sheet allows; `effect` is the p of time ~ (percent / usual)^-p, null where
 * nothing trustworthy says it (then only `usual` may be used). `ratio`: grams of hardener per
 * 100 g of resin, not to be varied.
 */
export type Hardener =
  | {
      readonly kind: 'percent';
      /** The percentage that the milestones' times hold for. */
      readonly usual: Figure;
      /** What the yard mixes. */
      readonly used: number;
      /** Outside warn..: a warning; outside block..: refused. */
      readonly warn: readonly [low: number, high: number];
      readonly block: readonly [low: number, high: number];
      readonly effect: Figure | null;
      readonly source: string;
    }
  | { readonly kind: 'ratio'; readonly per100: Figure };

/**
 * What mass and thickness do to the pot life of a mix: the sheet's pot life is that of
 * `referenceGrams` standing `referenceMm` thick; more of it gels sooner,
 * potLife(m, d) = sheet * (m / referenceGrams)^-massPower * (d / referenceMm)^-thicknessPower,
 * never longer than the film's open time where that is known.
 */
export interface MassLaw {
  readonly referenceGrams: Figure;
  readonly referenceMm: Figure;
  readonly massPower: Figure;
  readonly thicknessPower: Figure;
}

/** Conditions to apply and keep it in. Null: the sheet asks for nothing of the kind. */
export interface Limits {
  /**
   * Below it the cure stops (`stalls`; but a window goes on closing, as at the minimum) or the film
   * is lost (`spoils`: work that would see it is forbidden).
   */
  readonly minimumC: Figure;
  readonly belowMinimum: 'stalls' | 'spoils';
  /** Not to be applied in anything warmer. */
  readonly maximumC: Figure;
  /** Colder than that to apply in is warned of; null where the minimum says all. */
  readonly warnBelowC: Figure | null;
  /** Percent relative humidity. */
  readonly maximumHumidity: Figure | null;
  /** Degrees that the surface must be above the dew point. */
  readonly minimumDewMarginC: Figure | null;
  /** What happens in air too humid or on a surface too near the dew point. */
  readonly dampAir: 'refuse' | 'warn';
  /** Hours that the space must have been at the minimum or above before work begins. */
  readonly preheatHours: Figure | null;
  /** Hours that it must be kept there after the work. */
  readonly holdHours: Figure | null;
}

/** How a builder tells by hand that a film has reached a milestone. */
export interface TouchTest extends Evidence {
  readonly milestone: Milestone;
  readonly words: string;
}

/** A milestone without a trustworthy number, and the line of the data sheet that has it. */
export interface MissingLine {
  readonly milestone: Milestone;
  readonly line: string;
}

export interface CureMaterial {
  readonly id: string;
  readonly name: string;
  /** The catalogue's class it is of, if any. */
  readonly classId: string | null;
  readonly base: Base;
  readonly use: Use;
  readonly surface: SurfaceKind;
  /** Wax in it: to be taken off before abrading. */
  readonly waxed: boolean;
  /** An amine film may form on it: to be washed off before abrading. */
  readonly blushes: boolean;
  readonly milestones: Readonly<Partial<Record<Milestone, CureLaw>>>;
  /** Milestones without a number until the yard enters its sheet. */
  readonly missing: readonly MissingLine[];
  readonly limits: Limits;
  /** Null until the yard enters it: nothing can be weighed. */
  readonly hardener: Hardener | null;
  readonly mass: MassLaw;
  /** Kilograms per litre; hardener null where nothing is known, then no millilitres are shown. */
  readonly resinDensity: Figure | null;
  readonly hardenerDensity: Figure | null;
  readonly mixedDensity: Figure | null;
  /** Grams of mix per square metre and coat. */
  readonly gramsPerM2: Figure | null;
  readonly shelfLifeDays: Figure | null;
  readonly touchTests: readonly TouchTest[];
}

/** `open`: work may not come before the milestone. `close`: work may not come after it. */
export type Side = 'open' | 'close';
