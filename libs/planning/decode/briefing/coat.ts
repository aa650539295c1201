import { bondOf } from '#cure/bond/bond-of.ts';
import type { BondAnswer, NextCoat, PreparationStep, Stage, Surface } from '#cure/bond/bond.ts';
import { DomainError } from '#kernel/error.ts';
import { duration } from '../../compile/trace/rows.ts';
import type { Task } from '../../workload/workload.ts';
import type { Yard } from '../../yard/yard.ts';
import type { HazardSite } from './hazards.ts';
import type { SheetBond } from '../sheet.ts';
import { foundBy, type Found } from './surface.ts';
import { cited } from './trust.ts';

const stages: Readonly<Record<Stage, string>> = {
  wet: 'still too wet',
  open: 'in its bond window',
  between: 'past its bond window and too soft to abrade',
  hard: 'hard enough to abrade',
  cured: 'cured through',
};

const kinds: Readonly<Partial<Record<string, string>>> = { 'peel-ply': ' under peel ply' };

/** What hardens: only of that can be said how far it has come. */
const CURES: ReadonlySet<Surface['substrate']> = new Set([
  'polyester',
  'vinyl-ester',
  'epoxy',
  'paint',
]);

/** `Resin, in its bond window`. */
function surfaceWords({ surface, name, wanted }: Found): string {
  const { kind, stage, substrate, waxed, ageMinutes } = surface;
  const wax = waxed ? ' with wax on it' : '';
  const state =
    wanted === null
      ? stages[stage]
      : `${wanted === 'wet' ? 'still wet' : wanted}, as the procedure wants it`;
  const hardness = CURES.has(substrate) ? `, ${state}` : '';
  const age = ageMinutes === null ? ', there before' : '';
  return `${name}${kinds[kind] ?? ''}${wax}${hardness}${age}`;
}

function stepWords({ words, waitMinutes, staleMinutes }: PreparationStep): string {
  const limits = [
    waitMinutes === 0 ? '' : `wait ${duration(waitMinutes)}`,
    staleMinutes === null ? '' : `cover it within ${duration(staleMinutes)}`,
  ].filter((words) => words !== '');
  return limits.length === 0 ? words : `${words} (${limits.join(', ')})`;
}

/** The binder of its fabrics that may not suit, else of the first. */
function binderOf({ quantity }: Task, yard: Yard): NextCoat['binder'] {
  const plies = quantity?.kind === 'laminate' || quantity?.kind === 'tabbing' ? quantity.plies : [];
  const binders = plies.map((ply) => yard.fabrics.find(({ id }) => id === ply.fabric)?.binder);
  return binders.find((one) => one === 'styrene-soluble') ?? binders.at(0) ?? null;
}

/** What a coat bonds to, and what is to be said of it. */
export interface Coat {
  readonly bond: SheetBond | null;
  readonly warnings: readonly string[];
}

const NOTHING: Coat = { bond: null, warnings: [] };

function coatOn(found: Found, answer: BondAnswer): Coat {
  const surface = surfaceWords(found);
  const source = cited(answer);
  if (answer.bond === 'wait' || answer.bond === 'refused') {
    const verdict = answer.bond === 'wait' ? 'nothing may go on it yet' : 'does not bond';
    return { bond: null, warnings: [`${surface}: ${verdict}. ${answer.reason} [${source}]`] };
  }
  return {
    bond: {
      onTask: found.by?.task.id ?? null,
      surface,
      bond: answer.bond,
      preparation: answer.preparation.map(stepWords),
      reason: answer.reason,
      source,
    },
    warnings: answer.warnings,
  };
}

/** What a wet task that begins at a minute bonds to, by the order in which work was, or is to be, done. */
export function coatOf(task: Task, start: number, site: HazardSite): Coat {
  if (task.material === null) return NOTHING;
  const { base, use } = site.films.material(task.material);
  const { bonding } = task;
  const next: NextCoat = { base, use, bonding, binder: binderOf(task, site.yard) };
  try {
    const found = foundBy(task, start, next.base, site);
    return found === null ? NOTHING : coatOn(found, bondOf(found.surface, next));
  } catch (error) {
    if (!(error instanceof DomainError)) throw error;
    return {
      bond: null,
      warnings: [`Not known how it bonds: ${error.message}. ${error.cure}`],
    };
  }
}
