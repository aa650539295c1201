import type { Whose } from '#access/rule.ts';
import { DomainError, fault, type Fault } from '#kernel/error.ts';
import { editsOfChange } from '#live/change/change-edits.ts';
import type { ChangeInput } from '#live/change/change-input.ts';
import { applyEdits, type Edited } from '#live/edits/apply.ts';
import { type Effect, effectOf } from '#live/edits/effect.ts';
import type { WorkEdits } from '#live/edits/edits.ts';
import { withParts } from '#live/edits/parts.ts';
import { yardFaults } from '#planning/yard/check/check.ts';
import type { Part } from '#planning/yard/boats.ts';
import type { Yard } from '#planning/yard/yard.ts';
import { refuse } from '../soundness/soundness.service.ts';
import { asOwnerReads } from './owner-faults.ts';

export interface WorkOfChange {
  readonly edits: WorkEdits;
  readonly after: Edited;
  readonly effect: Effect;
}

/**
 * What a change makes of the work. Refuses one that makes no sense in its yard, by the fields that were
 * sent; to somebody who sees own boats only, without what else the yard has.
 */
export function workOfChange(before: Edited, change: ChangeInput, sees: Whose): WorkOfChange {
  const edits = editsFor(before.yard, change);
  try {
    if (change.kind === 'add-part') refuse(takenIds(before.yard, change.part));
    if (change.kind !== 'drop-part') {
      const changed = withParts(before.yard, edits);
      const partId = change.kind === 'size' ? change.partId : change.part.id;
      const at = change.kind === 'size' ? 'change' : 'change.part';
      refuse(partFaults(changed, partId, at));
    }
    const after = applyEdits(before.yard, before.workload, edits);
    return { edits, after, effect: effectOf(before.workload, after.workload) };
  } catch (error) {
    if (sees === 'all' || !(error instanceof DomainError)) throw error;
    throw asOwnerReads(error, change);
  }
}

/** Ids of the part and its jobs that others have already. */
function takenIds({ boats }: Yard, part: Part): Fault[] {
  const parts = boats.flatMap(({ refits }) => refits.flatMap((refit) => refit.parts));
  const jobs = new Set(parts.flatMap((one) => one.jobs.map(({ id }) => id)));
  const taken = (what: string, path: string, value: string): Fault =>
    fault('yard.duplicate', path, `there is a ${what} "${value}" already`, { value });
  return [
    ...(parts.some(({ id }) => id === part.id) ? [taken('part', 'change.part.id', part.id)] : []),
    ...part.jobs.flatMap(({ id }, j) =>
      jobs.has(id) ? [taken('job', `change.part.jobs[${String(j)}].id`, id)] : [],
    ),
  ];
}

/** What the change itself says wrong is told by where it was sent. */
function editsFor(yard: Yard, change: ChangeInput): WorkEdits {
  try {
    return editsOfChange(yard, change);
  } catch (error) {
    if (!(error instanceof DomainError) || error.faults.length === 0) throw error;
    const { code, message, cure } = error;
    const faults = error.faults.map((one) => ({
      ...one,
      path: one.path === '' ? 'change' : `change.${one.path}`,
    }));
    throw new DomainError(code, message, { cure, faults });
  }
}

/** What is wrong of the part, with paths into what was sent. */
function partFaults(yard: Yard, partId: string, at: string): Fault[] {
  const path = pathOf(yard, partId);
  return yardFaults(yard).flatMap((fault) => {
    const rest = fault.path.slice(path.length);
    if (!fault.path.startsWith(path) || !['.', '[', ''].includes(rest.charAt(0))) return [];
    return [{ ...fault, path: `${at}${rest}` }];
  });
}

/** As in the yard file. */
function pathOf({ boats }: Yard, partId: string): string {
  for (const [b, { refits }] of boats.entries()) {
    for (const [r, { parts }] of refits.entries()) {
      const p = parts.findIndex(({ id }) => id === partId);
      if (p >= 0) return `boats[${String(b)}].refits[${String(r)}].parts[${String(p)}]`;
    }
  }
  throw new Error(`no part ${partId} in the changed yard`);
}
