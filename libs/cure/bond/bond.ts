import type { Evidence } from '../evidence/evidence.ts';
import type { Base, SurfaceKind, Use } from '../material/material.ts';

/** What a surface is made of. */
export type Substrate = Base | 'wood' | 'metal' | 'foam' | 'paint';

/** How far the film that makes the surface has come. */
export type Stage =
  | 'wet' // before its bond window: nothing may go on it yet
  | 'open' // in its bond window
  | 'between' // after the window, too soft to abrade
  | 'hard' // may be abraded
  | 'cured'; // through

/** What is exposed now, where the next material is to go. */
export interface Surface {
  readonly substrate: Substrate;
  readonly kind: SurfaceKind | 'peel-ply' | 'bare';
  readonly stage: Stage;
  readonly waxed: boolean;
  /** An amine film may have formed on it and has not been washed off. */
  readonly blush: boolean;
  /** What was done to it since it was exposed, in order, with its age in minutes and, of abrading, the grit. */
  readonly done: readonly Done[];
  /** Minutes since it was laid; null: long ago. */
  readonly ageMinutes: number | null;
}

export const PREPARATIONS = ['dewax', 'wash', 'abrade', 'extract', 'wipe', 'peel'] as const;
export type PreparationKind = (typeof PREPARATIONS)[number];

export interface Done {
  readonly kind: PreparationKind;
  readonly minutesAgo: number;
  readonly grit: number | null;
}

/** What is to go on it. */
export interface NextCoat {
  readonly base: Base | 'paint';
  readonly use: Use | 'paint';
  readonly bonding: 'structural' | 'cosmetic';
  /** Of the fabric that touches the surface. */
  readonly binder: 'none' | 'powder' | 'styrene-soluble' | null;
}

export interface PreparationStep {
  readonly kind: PreparationKind;
  /** Words for a builder: with what, how far, how long to wait. */
  readonly words: string;
  readonly grit: number | null;
  /** Minutes to wait after it (flash-off), and after how many it is stale; null: never. */
  readonly waitMinutes: number;
  readonly staleMinutes: number | null;
}

/**
 * What a coat gets from the surface. `chemical` and `mechanical` need `preparation` in that
 * order (what was done already is left out); `wait`: nothing may go on it yet; `refused`: never so.
 */
export interface BondAnswer extends Evidence {
  readonly rule: string;
  readonly bond: 'chemical' | 'mechanical' | 'wait' | 'refused';
  readonly preparation: readonly PreparationStep[];
  readonly warnings: readonly string[];
  readonly reason: string;
}
