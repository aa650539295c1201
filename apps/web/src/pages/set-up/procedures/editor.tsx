import type { ComponentChildren } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { api, asked, type once } from '../../../api/client.ts';
import { problemOf } from '../../../api/problem.ts';
import { type Form, useForm } from '../../../form/form.ts';
import type { Sending } from '../../../form/sending.ts';
import { TextField } from '../../../form/fields.tsx';
import { useYard } from '../../../frame/yard.tsx';
import { Button, Notice, Panel, ProblemNotice, Row } from '../../../looks/looks.tsx';
import { common } from '../../../texts/common.ts';
import { procedures } from '../../../texts/procedures.ts';
import type { At } from '../record/collection.ts';
import { same } from '../../../form/same.ts';
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

export const newVersion = (
  path: At,
  fromVersion: number,
  values: ProcedureValues,
  headers: ReturnType<typeof once>,
): Promise<Procedure> =>
  asked(
    api.POST('/api/v1/yards/{yardId}/procedures/{id}/versions', {
      params: { path },
      headers,
      body: { ...values, fromVersion },
    }),
  );

/**
 * Writes the next version of a procedure. Where somebody else has written one meanwhile, whoever
 * writes decides first which of the two goes on.
 */
export function Editor({
  procedure,
  onSee,
  onSaved,
  onDropped,
  onStale,
}: {
  readonly procedure: Procedure;
  readonly onSee: (draft: ProcedureValues) => void;
  readonly onSaved: () => void;
  readonly onDropped: () => void;
  /** There is a version that was not seen here yet. */
  readonly onStale: () => void;
}) {
  const { id: yardId } = useYard();
  const { id } = procedure;
  // What was there when it was opened: what is written from now on is not news.
  const [kept] = useState(() => keptDraft(yardId, id));
  const [from, setFrom] = useState(kept?.record ?? procedure);
  const form = useForm<ProcedureValues>(
    valuesOf(from),
    async (values, headers) => {
      await newVersion({ yardId, id }, from.version, values, headers).catch((error: unknown) => {
        if (problemOf(error).status === 412) onStale();
        throw error;
      });
      keepProcedureDraft(yardId, id, null);
      onSaved();
    },
    kept?.values,
  );
  const isStale = form.problem?.status === 412;
  // One's own version may come by the log before its answer does.
  const isOwn = form.isBusy || (!isStale && same(valuesOf(procedure), form.values));
  const isBehind = procedure.version > from.version && !isOwn;
  useKeeping(yardId, id, form, undefined, from);
  return (
    <Panel title={texts.title(procedure.name)}>
      {kept !== undefined && <Notice tone="heed">{texts.draft}</Notice>}
      <div role="status">
        {isBehind && (
          <Notice tone="heed" title={texts.behind(from.version, procedure.version)}>
            <p>{texts.behindCure}</p>
            <Row>
              <Button
                onPress={() => {
                  setFrom(procedure);
                  form.reset(valuesOf(procedure), form.values);
                }}
              >
                {texts.keepMine}
              </Button>
              <Button
                onPress={() => {
                  setFrom(procedure);
                  form.reset(valuesOf(procedure));
                  keepProcedureDraft(yardId, id, null);
                }}
              >
                {texts.takeTheirs(procedure.version)}
              </Button>
            </Row>
          </Notice>
        )}
      </div>
      <ProcedureForm form={form} saveWords={texts.save(procedure.version + 1)} isHeld={isBehind}>
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
export function useKeeping(
  yardId: string,
  id: string,
  form: Form<ProcedureValues>,
  sending?: Sending<ProcedureValues>,
  record: Procedure | null = null,
): void {
  const { values, isChanged } = form;
  useEffect(() => {
    if (!isChanged) return undefined;
    keepProcedureDraft(yardId, id, { values, record, ...(sending && { sending }) });
    const warn = (event: BeforeUnloadEvent): void => event.preventDefault();
    addEventListener('beforeunload', warn);
    return () => removeEventListener('beforeunload', warn);
  }, [values, isChanged, record]);
}

/** The whole of a version: name, steps with their waits, ways to choose from. */
export function ProcedureForm({
  form,
  saveWords,
  isHeld = false,
  children,
}: {
  readonly form: Form<ProcedureValues>;
  readonly saveWords: string;
  /** Something is to be decided before it is saved. */
  readonly isHeld?: boolean;
  readonly children?: ComponentChildren;
}) {
  return (
    <form class={css['editor']} onSubmit={form.submit} noValidate>
      <TextField {...form.at('name')} label={texts.name} required maxLength={120} />
      <StepList form={form} />
      <ChoiceFields form={form} />
      {form.problem?.status === 412 ? (
        <Notice tone="heed" isNews>
          {common.changedMeanwhile}
        </Notice>
      ) : (
        <ProblemNotice problem={form.problem} />
      )}
      <Row>
        <Button kind="do" type="submit" isBusy={form.isBusy} disabled={isHeld}>
          {saveWords}
        </Button>
        {children}
      </Row>
    </form>
  );
}
