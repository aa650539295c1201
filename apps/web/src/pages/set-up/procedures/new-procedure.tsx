import { useLocation } from 'preact-iso/router';
import { useState } from 'preact/hooks';
import { api, asked, once } from '../../../api/client.ts';
import { ChoiceField } from '../../../form/fields.tsx';
import { useForm } from '../../../form/form.ts';
import { idFor } from '../../../form/names.ts';
import { useYard } from '../../../frame/yard.tsx';
import { Busy, Button, Notice, ProblemNotice } from '../../../looks/looks.tsx';
import { procedures } from '../../../texts/procedures.ts';
import { optionsOf, useList } from '../lists/lists.ts';
import { RoomPage } from '../page.tsx';
import css from '../set-up.module.css';
import { ProcedureForm, useKeeping } from './editor.tsx';
import { keepProcedureDraft, keptDraft } from './procedure-draft.ts';
import type { Procedure, ProcedureValues } from './procedure-values.ts';

const texts = procedures.edit;
const empty: ProcedureValues = { name: '', steps: [], links: [], choices: [] };

/** A procedure that is still to be written; drafts of it are kept under no id. */
export function NewProcedure() {
  const all = useList('procedures');
  return (
    <RoomPage room="procedures" title={procedures.isNew} isNarrow={false}>
      <ProblemNotice problem={all.problem} again={all.again} />
      {all.data === undefined ? <Busy /> : <Writing all={all.data} />}
    </RoomPage>
  );
}

function Writing({ all }: { readonly all: readonly Procedure[] }) {
  const { id: yardId } = useYard();
  const { route } = useLocation();
  const [kept] = useState(() => keptDraft(yardId, ''));
  const [copied, setCopied] = useState('');
  const form = useForm<ProcedureValues>(kept ?? empty, async (values) => {
    const id = idFor(
      values.name,
      all.map((one) => one.id),
    );
    await asked(
      api.POST('/api/v1/yards/{yardId}/procedures', {
        params: { path: { yardId } },
        headers: once(),
        body: { id, ...values },
      }),
    );
    keepProcedureDraft(yardId, '', null);
    route(`/yards/${yardId}/set-up/procedures/${id}`);
  });
  useKeeping(yardId, '', form);
  const copy = (id: string): void => {
    setCopied(id);
    const found = all.find((one) => one.id === id);
    form.set('steps', found?.steps ?? []);
    form.set('links', found?.links ?? []);
    form.set('choices', found?.choices ?? []);
  };
  return (
    <>
      {kept !== undefined && <Notice tone="heed">{texts.draft}</Notice>}
      <p class={css['soft']}>{texts.seeNew}</p>
      {all.length > 0 && (
        <ChoiceField
          label={texts.copyOf}
          value={copied}
          onValue={copy}
          options={[{ value: '', label: texts.copyNone }, ...optionsOf(all)]}
        />
      )}
      <ProcedureForm form={form} saveWords={texts.saveNew}>
        {form.isChanged && (
          <Button
            kind="quiet"
            onPress={() => {
              keepProcedureDraft(yardId, '', null);
              form.reset(empty);
            }}
          >
            {texts.discard}
          </Button>
        )}
      </ProcedureForm>
    </>
  );
}
