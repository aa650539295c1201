import { effect } from '@preact/signals';
import type { Sending } from '../../../form/sending.ts';
import { person } from '../../../session/session.ts';

/** What somebody typed and did not save, and the record that they began from. */
export interface Draft<R, V> {
  readonly record: R | null;
  readonly values: V;
  /** What of it may have come to the service already. */
  readonly sending?: Sending<V>;
}

/**
 * Kept for as long as the page is open, so that a look at another room loses nothing. Of one
 * person only: nobody finds what another typed.
 */
const drafts = new Map<string, Draft<unknown, unknown>>();
let whose: string | undefined;
effect(() => {
  const now = person.value?.id;
  if (now !== whose) drafts.clear();
  whose = now;
});

export function draftOf<R, V>(key: string): Draft<R, V> | undefined {
  // Put there under the same key by the form of the same kind of record.
  return drafts.get(key) as Draft<R, V> | undefined;
}

export function keepDraft<R, V>(key: string, draft: Draft<R, V> | null): void {
  if (draft === null) drafts.delete(key);
  else drafts.set(key, draft);
}
