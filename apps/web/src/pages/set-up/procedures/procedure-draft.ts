import { draftOf, keepDraft } from '../record/drafts.ts';
import type { ProcedureValues } from './procedure-values.ts';

const keyOf = (yardId: string, id: string): string => `${yardId} procedures ${id}`;

/** Written and not saved; `id` empty: of a new procedure. */
export const keptDraft = (yardId: string, id: string): ProcedureValues | undefined =>
  draftOf<null, ProcedureValues>(keyOf(yardId, id))?.values;

export const keepProcedureDraft = (
  yardId: string,
  id: string,
  values: ProcedureValues | null,
): void => keepDraft(keyOf(yardId, id), values === null ? null : { record: null, values });
