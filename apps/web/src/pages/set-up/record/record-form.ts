import { useEffect, useRef, useState } from 'preact/hooks';
import { problemOf } from '../../../api/problem.ts';
import { type Form, useForm } from '../../../form/form.ts';
import { same } from '../../../form/same.ts';
import { Sending, type Sent } from '../../../form/sending.ts';
import { setUp as texts } from '../../../texts/set-up.ts';
import { draftOf, keepDraft } from './drafts.ts';
import { changedFields, merged } from './merge.ts';

interface Kept {
  readonly revision: number;
}

/** How one that is not there yet is made. */
export interface Making<R, V> {
  /** An id that is free. */
  readonly idOf: (values: V) => string;
  readonly create: (sent: Sent<V>) => Promise<R>;
}

interface Given<R extends Kept, V extends object> {
  /** Of what is typed and not saved: the same key finds it again. */
  readonly draftKey: string;
  /** Null: one that is still to be made. */
  readonly record: R | null;
  readonly valuesOf: (record: R | null) => V;
  /** Left out where there always is one. */
  readonly making?: Making<R, V>;
  /** Saves it over `before`, which it was begun from. */
  readonly change: (values: V, before: R) => Promise<R>;
  readonly read: (before: R) => Promise<R>;
  /** All that stands in it is saved. */
  readonly onSaved: (record: R, wasNew: boolean) => void;
}

export interface RecordForm<V extends object> extends Form<V> {
  /** What stands in it was typed before, and is not saved. */
  readonly isDraft: boolean;
  /** Somebody else has changed fields that were changed here too. */
  readonly hasClash: boolean;
  readonly dropDraft: () => void;
}

/**
 * A form of one record. Where somebody else has saved meanwhile, what they changed is read into
 * the form, what was typed here stays, and saving again takes it from there. One that is made is
 * made once, whatever becomes of the answers.
 */
export function useRecordForm<R extends Kept, V extends object>({
  draftKey,
  record,
  valuesOf,
  making,
  change,
  read,
  onSaved,
}: Given<R, V>): RecordForm<V> {
  const draft = useRef(draftOf<R, V>(draftKey)).current;
  const from = draft === undefined ? record : draft.record;
  const sending = useRef(draft?.sending ?? new Sending<V>()).current;
  const current = useRef(from);
  const begun = useRef(valuesOf(from));
  const [clashes, setClashes] = useState<readonly string[]>([]);

  const form: Form<V> = useForm<V>(
    begun.current,
    async (values) => {
      const now = await save(values);
      const fresh = valuesOf(now);
      const left = merged(values, form.latest.current, fresh);
      // What was typed since it was sent is a change of what is there now, and not saved yet.
      if (!same(left, fresh)) {
        begin(now, left);
        return;
      }
      begin(record === null ? null : now);
      onSaved(now, record === null);
    },
    draft?.values,
  );

  async function save(values: V): Promise<R> {
    if (current.current === null && making !== undefined) {
      const made = await sending.settle(values, making.create);
      if (made === undefined) {
        return sending.send(values, making.create, () => making.idOf(values));
      }
      // It stands there as it was sent first: what was typed since is a change of it.
      current.current = made;
      begun.current = valuesOf(made);
    }
    const before = current.current;
    if (before === null) throw new Error('there is nothing to change, and no way to make it');
    try {
      return await change(values, before);
    } catch (error) {
      if (problemOf(error).status === 412) await takeOver(before);
      throw error;
    }
  }

  function begin(now: R | null, typed?: V): void {
    current.current = now;
    begun.current = valuesOf(now);
    form.reset(begun.current, typed);
    setClashes([]);
    keepDraft(draftKey, typed === undefined ? null : { record: now, values: typed, sending });
  }

  async function takeOver(before: R): Promise<void> {
    const now = await read(before);
    const values = form.latest.current;
    const theirs = changedFields(begun.current, valuesOf(now));
    const mine = changedFields(begun.current, values);
    const both = merged(begun.current, values, valuesOf(now));
    begin(now, both);
    setClashes(theirs.filter((field) => mine.includes(field)));
  }

  const { isChanged, values } = form;
  // What comes live is shown at once where nothing has been typed, or what was is typed back.
  useEffect(() => {
    const seen = current.current;
    if (record !== null && !isChanged && (seen === null || record.revision > seen.revision)) {
      begin(record);
    }
  }, [record?.revision, isChanged]);
  useEffect(() => {
    if (!isChanged) {
      keepDraft(draftKey, null);
      return undefined;
    }
    keepDraft(draftKey, { record: current.current, values, sending });
    const warn = (event: BeforeUnloadEvent): void => event.preventDefault();
    addEventListener('beforeunload', warn);
    return () => removeEventListener('beforeunload', warn);
  }, [isChanged, values, form.problem]);

  const faultAt = (path: string): string | undefined =>
    form.faultAt(path) ?? (clashes.includes(path) ? texts.record.clash : undefined);
  return {
    ...form,
    faultAt,
    at: (key) => ({ ...form.at(key), fault: faultAt(key) }),
    isDraft: draft !== undefined,
    hasClash: clashes.length > 0,
    dropDraft: () => begin(record),
  };
}
