import { DomainError } from '#kernel/error.ts';
import type { Task, Workload } from '#planning/workload/workload.ts';
import type { Yard } from '#planning/yard/yard.ts';
import { applyEdits } from '../edits/apply.ts';
import { preparationFor } from './preparation-for.ts';
import type { Reworked } from './rework.ts';
import type { Late } from './shut.ts';

interface LateInput {
  readonly yard: Yard;
  /** As it is stored. */
  readonly workload: Workload;
  readonly late: Late;
  readonly reworkId: string;
  /** The windows are still open, but nobody can come in time. */
  readonly ahead?: boolean;
}

/** What is prepared for a late task; or nothing, and why, in words. */
type Judged =
  { readonly made: Reworked; readonly why: null } | { readonly made: null; readonly why: string };

/**
 * What a late task needs, if that can be worked out and added to the work. Never throws: of many late
 * tasks each is judged by itself, and one that stands wrong in the work is the foreman's to put right.
 */
export function judgeLate({ yard, workload, late, reworkId, ahead }: LateInput): Judged {
  try {
    const made = preparationFor({ yard, workload, linkIds: late.linkIds, reworkId, ahead });
    applyEdits(yard, workload, made.edits);
    return { made, why: null };
  } catch (error) {
    return { made: null, why: undecidedWords(yard, late.task, reasonOf(error)) };
  }
}

function reasonOf(error: unknown): string {
  if (error instanceof DomainError) return error.message.replace(/\.$/, '');
  return `the service failed at it (${error instanceof Error ? error.message : String(error)})`;
}

/** The same for a part that the yard has no more. */
function nameOf({ boats }: Yard, partId: string): string {
  const parts = boats.flatMap(({ refits }) => refits.flatMap((refit) => refit.parts));
  return parts.find(({ id }) => id === partId)?.name ?? partId;
}

const undecidedWords = (yard: Yard, { name, partId }: Task, reason: string): string =>
  `The window for “${name}” on ${nameOf(yard, partId)} was missed, and what it needs now could not be worked out: ${reason}. The foreman has to decide how it goes on.`;

/** Of a window in a branch, while other branches are open. */
export const otherWayWords = (
  yard: Yard,
  { name, partId }: Task,
  ways: readonly string[],
): string =>
  `The window for “${name}” on ${nameOf(yard, partId)} was missed: left is ${ways.map((way) => `“${way}”`).join(' or ')}.`;
