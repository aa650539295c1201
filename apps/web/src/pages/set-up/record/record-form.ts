import { useEffect, useRef } from 'preact/hooks';
import { problemOf } from '../../../api/problem.ts';
import { type Form, useForm } from '../../../form/form.ts';
import { draftOf, keepDraft } from './drafts.ts';
import { merged } from './merge.ts';

interface Kept {
  readonly revision: number;
}

interface Given<R extends Kept, V extends object> {
  /** Of what is typed and not saved: the same key finds it again. */
  readonly draftKey: string;
  /** Null: one that is still to be made. */
  readonly record: R | null;
  readonly valuesOf: (record: R | null) => V;
  /** Sends it; `before` is the record that it was begun from. */
  readonly save: (values: V, before: R | null) => Promise<R>;
  readonly read: (before: R) => Promise<R>;
  readonly onSaved: (record: R, wasNew: boolean) => void;
}

export interface RecordForm<V extends object> extends Form<V> {
  /** What stands in it was typed before, and is not saved. */
  readonly isDraft: boolean;
  readonly dropDraft: () => void;
}

/**
 * A form of one record. Where somebody else has saved meanwhile, what they changed is read into
 * the form, what was typed here stays, and saving again takes it from there.
 */
export function useRecordForm<R extends Kept, V extends object>({
  draftKey,
  record,
  valuesOf,
  save,
  read,
  onSaved,
}: Given<R, V>): RecordForm<V> {
  const draft = useRef(draftOf<R, V>(draftKey)).current;
  const from = draft === undefined ? record : draft.record;
  const current = useRef(from);
  const begun = useRef(valuesOf(from));

  const form: Form<V> = useForm<V>(begun.current, async (values) => {
    const before = current.current;
    try {
      const now = await save(values, before);
      begin(before === null ? null : now);
      onSaved(now, before === null);
    } catch (error) {
      if (before !== null && problemOf(error).status === 412) await takeOver(before, values);
      throw error;
    }
  });

  function begin(now: R | null): void {
    current.current = now;
    begun.current = valuesOf(now);
    form.reset(begun.current);
    keepDraft(draftKey, null);
  }

  async function takeOver(before: R, values: V): Promise<void> {
    const now = await read(before);
    const both = merged(begun.current, values, valuesOf(now));
    begin(now);
    setAll(both);
  }

  function setAll(values: V): void {
    for (const name of Object.keys(values) as (keyof V)[]) form.set(name, values[name]);
  }

  useEffect(() => {
    if (draft !== undefined) setAll(draft.values);
  }, []);

  const { isChanged, values } = form;
  // What comes live is shown at once where nothing has been typed.
  useEffect(() => {
    if (record !== null && !isChanged && record.revision !== current.current?.revision) {
      begin(record);
    }
  }, [record?.revision]);
  useEffect(() => {
    if (!isChanged) {
      keepDraft(draftKey, null);
      return undefined;
    }
    keepDraft(draftKey, { record: current.current, values });
    const warn = (event: BeforeUnloadEvent): void => event.preventDefault();
    addEventListener('beforeunload', warn);
    return () => removeEventListener('beforeunload', warn);
  }, [isChanged, values]);

  return { ...form, isDraft: draft !== undefined, dropDraft: () => begin(record) };
}
