import { useState } from 'preact/hooks';
import { problemOf } from '../../../api/problem.ts';

/** How a dialog that changes some fields of a record sends them. */
export interface Changing<R, P> {
  /** Refused (412) where the record is not any more what it was in `from`. */
  readonly patch: (from: R, patch: P) => Promise<void>;
  readonly read: () => Promise<R>;
}

/**
 * The record that a dialog was opened on. What comes live meanwhile does not change it: else what
 * is saved here would silently take the place of what somebody else has just saved. Once that was
 * told, saving again goes on from what they left; `theirs` is what they had before them and after.
 */
export function useBeginning<R, P>(
  record: R,
  { patch, read }: Changing<R, P>,
): {
  readonly from: R;
  readonly theirs: { readonly before: R; readonly now: R } | undefined;
  readonly send: (wanted: P) => Promise<void>;
} {
  const [from, setFrom] = useState(record);
  const [theirs, setTheirs] = useState<{ readonly before: R; readonly now: R }>();
  const send = async (wanted: P): Promise<void> => {
    try {
      await patch(from, wanted);
    } catch (error) {
      if (problemOf(error).status === 412) {
        const now = await read();
        setTheirs({ before: from, now });
        setFrom(now);
      }
      throw error;
    }
  };
  return { from, theirs, send };
}
