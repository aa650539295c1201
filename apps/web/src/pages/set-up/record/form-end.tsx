import type { ComponentChildren } from 'preact';
import { Button, Notice, ProblemNotice } from '../../../looks/looks.tsx';
import { common } from '../../../texts/common.ts';
import { setUp } from '../../../texts/set-up.ts';
import css from '../set-up.module.css';
import type { RecordForm } from './record-form.ts';

const texts = setUp.record;

/** Why it was not saved, and what to do with what was typed. */
export function FormEnd<V extends object>({
  form,
  onSave,
  children,
}: {
  readonly form: RecordForm<V>;
  readonly onSave?: () => void;
  readonly children?: ComponentChildren;
}) {
  return (
    <>
      {form.problem?.status === 412 ? (
        <Notice tone="heed" title={texts.stale} isNews>
          {form.hasClash ? `${texts.staleCure} ${texts.staleClash}` : texts.staleCure}
        </Notice>
      ) : (
        <ProblemNotice problem={form.problem} />
      )}
      <div class={css['bar']}>
        <Button kind="do" type="submit" isBusy={form.isBusy} onPress={() => onSave?.()}>
          {common.save}
        </Button>
        {form.isChanged && (
          <Button kind="quiet" onPress={form.dropDraft}>
            {texts.discard}
          </Button>
        )}
        {children}
      </div>
    </>
  );
}

/** Said above a form that holds what was typed at an earlier visit. */
export const DraftNotice = <V extends object>({ form }: { readonly form: RecordForm<V> }) =>
  form.isDraft && form.isChanged ? <Notice tone="heed">{texts.draft}</Notice> : null;
