import type { Sending } from '../../../form/sending.ts';
import { type Draft, draftOf, keepDraft } from '../record/drafts.ts';
import type { Procedure, ProcedureValues } from './procedure-values.ts';

type ProcedureDraft = Draft<Procedure, ProcedureValues>;

const keyOf = (yardId: string, id: string): string => `${yardId} procedures ${id}`;

/** Written and not saved; `id` empty: of a new procedure. */
export const keptDraft = (yardId: string, id: string): ProcedureDraft | undefined =>
  draftOf<Procedure, ProcedureValues>(keyOf(yardId, id));

export const keepProcedureDraft = (
  yardId: string,
  id: string,
  draft: {
    readonly values: ProcedureValues;
    /** The version that it is written from; null: there is none yet. */
    readonly record: Procedure | null;
    readonly sending?: Sending<ProcedureValues>;
  } | null,
): void => keepDraft(keyOf(yardId, id), draft);
