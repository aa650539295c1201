import { useState } from 'preact/hooks';
import { api, asked } from '../../../api/client.ts';
import { useResource } from '../../../api/resource.ts';
import { ChoiceField } from '../../../form/fields.tsx';
import { useYard } from '../../../frame/yard.tsx';
import { Busy, Button, Notice, ProblemNotice } from '../../../looks/looks.tsx';
import { procedures as texts } from '../../../texts/procedures.ts';
import { setUp } from '../../../texts/set-up.ts';
import { RoomPage } from '../page.tsx';
import css from '../set-up.module.css';
import { Editor } from './editor.tsx';
import style from './procedures.module.css';
import { Preview } from './preview.tsx';
import { keptDraft } from './procedure-draft.ts';
import type { ProcedureValues } from './procedure-values.ts';

/** One procedure: the tasks it makes for a part, and how a new version of it is written. */
export function ProcedurePage({ id }: { readonly id: string }) {
  const { id: yardId } = useYard();
  const { data, problem, again } = useResource(
    `procedure ${id}`,
    (signal) =>
      asked(
        api.GET('/api/v1/yards/{yardId}/procedures/{id}', {
          params: { path: { yardId, id } },
          signal,
        }),
      ),
    { yardId, on: ({ subject, subjectId }) => subject === 'procedure' && subjectId === id },
  );
  const [version, setVersion] = useState<number>();
  const [isWriting, setWriting] = useState(() => keptDraft(yardId, id) !== undefined);
  const [draft, setDraft] = useState<ProcedureValues>();
  if (data === undefined) {
    return (
      <RoomPage room="procedures" title={setUp.rooms.procedures}>
        {problem === undefined ? (
          <Busy />
        ) : problem.status === 404 ? (
          <Notice title={setUp.record.gone}>{setUp.record.goneCure}</Notice>
        ) : (
          <ProblemNotice problem={problem} again={again} />
        )}
      </RoomPage>
    );
  }
  const shown = version ?? data.version;
  const versions = Array.from({ length: data.version }, (_, k) => data.version - k);
  const end = (): void => {
    setWriting(false);
    setDraft(undefined);
  };
  return (
    <RoomPage room="procedures" title={data.name} isNarrow={false}>
      {!isWriting && (
        <>
          <p class={css['soft']}>{texts.versionLead}</p>
          <div class={style['beside']}>
            <ChoiceField
              label={texts.versionOf}
              value={String(shown)}
              onValue={(text) => setVersion(Number(text))}
              options={versions.map((one) => ({
                value: String(one),
                label: one === data.version ? texts.versionNow(one) : String(one),
              }))}
            />
            <Button onPress={() => setWriting(true)}>{texts.edit.open}</Button>
          </div>
          {shown !== data.version && <Notice>{texts.older}</Notice>}
        </>
      )}
      {isWriting && (
        <Editor
          procedure={data}
          onSee={setDraft}
          onSaved={() => {
            end();
            setVersion(undefined);
            again();
          }}
          onDropped={end}
          onStale={again}
        />
      )}
      {(!isWriting || draft !== undefined) && (
        <Preview procedureId={id} version={isWriting ? undefined : shown} draft={draft} />
      )}
    </RoomPage>
  );
}
