/**
 * What a yard knows of a material that cures, from its data sheet. Temperatures in degrees
 * Celsius, times in minutes. The library has no material of its own: every number here is
 * the yard's, with its source beside it.
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

/** Minutes that a milestone takes at a constant temperature. */
export interface CureRow {
  readonly celsius: number;
  readonly minutes: number;
}

/** One milestone over temperature: at least two rows, ascending, never slower when warmer. */
export interface CureTable {
  readonly rows: readonly CureRow[];
  /** Where the numbers come from, as a person would look them up. */
  readonly source: string;
}

export interface CureMaterial {
  readonly id: string;
  readonly name: string;
  readonly milestones: Readonly<Partial<Record<Milestone, CureTable>>>;
  /** Below it the cure stops (`stalls`) or the film is lost (`spoils`: work that would see it is forbidden). */
  readonly minimumC: number;
  readonly belowMinimum: 'stalls' | 'spoils';
  /** Not to be applied in anything warmer. */
  readonly maximumC: number;
}

/** `open`: work may not come before the milestone. `close`: work may not come after it. */
export type Side = 'open' | 'close';
