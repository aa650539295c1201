import type { Evidence } from '../evidence/evidence.ts';
import type { BondAnswer, NextCoat, PreparationKind, Stage, Substrate, Surface } from './bond.ts';

/** What a rule is for: every field that is given must hold. */
export interface BondCondition {
  readonly substrate?: readonly Substrate[];
  readonly kind?: readonly Surface['kind'][];
  readonly stage?: readonly Stage[];
  /** Laid with wax that is still on it, or was taken off by solvent since. */
  readonly waxed?: boolean;
  /** Minutes since it was laid, not more; what was laid long ago is older than anything. */
  readonly youngerThan?: number;
  /** Minutes since it was laid, more. */
  readonly olderThan?: number;
  /** Laid so long ago that nobody knows when. */
  readonly old?: boolean;
  readonly next?: readonly NextCoat['base'][];
  readonly use?: readonly NextCoat['use'][];
  readonly bonding?: NextCoat['bonding'];
  readonly binder?: readonly NextCoat['binder'][];
}

/** A step that a rule asks for; the grit of abrading. */
export interface Needed {
  readonly kind: PreparationKind;
  readonly grit?: number;
}

export interface BondRule extends Evidence {
  readonly id: string;
  readonly when: BondCondition;
  readonly bond: BondAnswer['bond'];
  readonly preparation: readonly Needed[];
  readonly warnings: readonly string[];
  readonly reason: string;
}

const among = <T>(list: readonly T[] | undefined, value: T): boolean =>
  list === undefined || list.includes(value);

/**
 * Solvent takes wax off but gives no key: what a waxed surface needs besides is asked for all
 * the same. What was wiped with it while it is still tacky had none, and peel ply takes it along.
 */
const wasWaxed = ({ waxed, kind, stage, done }: Surface): boolean =>
  kind !== 'peel-ply' &&
  (waxed ||
    (done.some((one) => one.kind === 'dewax') && !(kind === 'inhibited' && stage === 'open')));

/** Whether a rule is for this surface and this coat. */
export function holds(when: BondCondition, surface: Surface, next: NextCoat): boolean {
  const age = surface.ageMinutes ?? Infinity;
  return (
    among(when.substrate, surface.substrate) &&
    among(when.kind, surface.kind) &&
    among(when.stage, surface.stage) &&
    (when.waxed === undefined || when.waxed === wasWaxed(surface)) &&
    (when.youngerThan === undefined || age <= when.youngerThan) &&
    (when.olderThan === undefined || age > when.olderThan) &&
    (when.old === undefined || when.old === (surface.ageMinutes === null)) &&
    among(when.next, next.base) &&
    among(when.use, next.use) &&
    (when.bonding === undefined || when.bonding === next.bonding) &&
    among(when.binder, next.binder)
  );
}
