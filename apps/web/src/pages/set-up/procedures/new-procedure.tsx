import { useLocation } from 'preact-iso/router';
import { useRef, useState } from 'preact/hooks';
import { api, asked, once } from '../../../api/client.ts';
import { ChoiceField } from '../../../form/fields.tsx';
import { useForm } from '../../../form/form.ts';
import { idFor } from '../../../form/names.ts';
import { Sending, type Sent } from '../../../form/sending.ts';
import { useYard } from '../../../frame/yard.tsx';
import { Busy, Button, Notice, ProblemNotice } from '../../../looks/looks.tsx';
import { procedures } from '../../../texts/procedures.ts';
import { optionsOf, useList } from '../lists/lists.ts';
import { RoomPage } from '../page.tsx';
import css from '../set-up.module.css';
import { newVersion, ProcedureForm, useKeeping } from './editor.tsx';
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
  const ids = all.map((one) => one.id);
  const making = useRef(kept?.sending ?? new Sending<ProcedureValues>()).current;
  const create = ({ id, values, key }: Sent<ProcedureValues>): Promise<Procedure> =>
    asked(
      api.POST('/api/v1/yards/{yardId}/procedures', {
        params: { path: { yardId } },
        headers: once(key),
        body: { id, ...values },
      }),
    );
  const form = useForm<ProcedureValues>(
    empty,
    async (values, headers) => {
      // Sent before with other words and not answered: where it was made, these are its next version.
      const before = await making.settle(values, create);
      const { id } =
        before === undefined
          ? await making.send(values, create, () => idFor(values.name, ids))
          : await newVersion({ yardId, id: before.id }, before.version, values, headers);
      keepProcedureDraft(yardId, '', null);
      route(`/yards/${yardId}/set-up/procedures/${id}`);
    },
    kept?.values,
  );
  useKeeping(yardId, '', form, making);
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
