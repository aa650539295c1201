import type { Evidence } from '../evidence/evidence.ts';
import type { Base } from '../material/material.ts';

export interface Caution extends Evidence {
  readonly id: string;
  readonly text: string;
}

/** What about a piece of work calls for cautions. */
export interface Hazards {
  /** Base of what is mixed; null: nothing is. */
  readonly base: Base | null;
  /** Base of resin that has not set and is handled; left out: none is. */
  readonly uncured?: Base | undefined;
  /** A peroxide is weighed. */
  readonly peroxide: boolean;
  readonly mixGrams: number | null;
  readonly dusty: boolean;
  /** The dust may be of epoxy that has not cured through. */
  readonly greenEpoxy: boolean;
  readonly solvent: boolean;
  readonly enclosed: boolean;
  readonly isocyanate: boolean;
  readonly unventedHeater: boolean;
}
