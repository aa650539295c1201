import type { ComponentChildren } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { api, asked, once } from '../../../api/client.ts';
import { type Form, useForm } from '../../../form/form.ts';
import { TextField } from '../../../form/fields.tsx';
import { useYard } from '../../../frame/yard.tsx';
import { Button, Notice, Panel, ProblemNotice, Row } from '../../../looks/looks.tsx';
import { procedures } from '../../../texts/procedures.ts';
import css from './procedures.module.css';
import { ChoiceFields } from './choice-fields.tsx';
import { keepProcedureDraft, keptDraft } from './procedure-draft.ts';
import type { Procedure, ProcedureValues } from './procedure-values.ts';
import { StepList } from './step-list.tsx';

const texts = procedures.edit;

const valuesOf = ({ name, steps, links, choices }: Procedure): ProcedureValues => ({
  name,
  steps,
  links,
  choices,
});

/** Writes the next version of a procedure. */
export function Editor({
  procedure,
  onSee,
  onSaved,
  onDropped,
}: {
  readonly procedure: Procedure;
  readonly onSee: (draft: ProcedureValues) => void;
  readonly onSaved: () => void;
  readonly onDropped: () => void;
}) {
  const { id: yardId } = useYard();
  const { id } = procedure;
  // What was there when it was opened: what is written from now on is not news.
  const [kept] = useState(() => keptDraft(yardId, id));
  const form = useForm<ProcedureValues>(kept ?? valuesOf(procedure), async (values) => {
    await asked(
      api.POST('/api/v1/yards/{yardId}/procedures/{id}/versions', {
        params: { path: { yardId, id } },
        headers: once(),
        body: values,
      }),
    );
    keepProcedureDraft(yardId, id, null);
    onSaved();
  });
  useKeeping(yardId, id, form);
  return (
    <Panel title={texts.title(procedure.name)}>
      {kept !== undefined && <Notice tone="heed">{texts.draft}</Notice>}
      <ProcedureForm form={form} saveWords={texts.save(procedure.version + 1)}>
        <Button onPress={() => onSee(form.values)}>{texts.see}</Button>
        <Button
          kind="quiet"
          onPress={() => {
            keepProcedureDraft(yardId, id, null);
            onDropped();
          }}
        >
          {texts.discard}
        </Button>
      </ProcedureForm>
    </Panel>
  );
}

/** What is written is there again after a look at another page. */
export function useKeeping(yardId: string, id: string, form: Form<ProcedureValues>): void {
  const { values, isChanged } = form;
  useEffect(() => {
    if (!isChanged) return undefined;
    keepProcedureDraft(yardId, id, values);
    const warn = (event: BeforeUnloadEvent): void => event.preventDefault();
    addEventListener('beforeunload', warn);
    return () => removeEventListener('beforeunload', warn);
  }, [values, isChanged]);
}

/** The whole of a version: name, steps with their waits, ways to choose from. */
export function ProcedureForm({
  form,
  saveWords,
  children,
}: {
  readonly form: Form<ProcedureValues>;
  readonly saveWords: string;
  readonly children?: ComponentChildren;
}) {
  return (
    <form class={css['editor']} onSubmit={form.submit} noValidate>
      <TextField {...form.at('name')} label={texts.name} required maxLength={120} />
      <StepList form={form} />
      <ChoiceFields form={form} />
      <ProblemNotice problem={form.problem} />
      <Row>
        <Button kind="do" type="submit" isBusy={form.isBusy}>
          {saveWords}
        </Button>
        {children}
      </Row>
    </form>
  );
}
