import { useLocation } from 'preact-iso/router';
import { useState } from 'preact/hooks';
import { api, asked, ifMatch } from '../../../api/client.ts';
import { useResource } from '../../../api/resource.ts';
import { TextField } from '../../../form/fields.tsx';
import { useYard } from '../../../frame/yard.tsx';
import { Busy, Button, Notice, Panel, ProblemNotice, Row } from '../../../looks/looks.tsx';
import { materials as texts } from '../../../texts/materials.ts';
import { setUp } from '../../../texts/set-up.ts';
import { FormDialog } from '../dialog/form-dialog.tsx';
import { RoomPage } from '../page.tsx';
import { useRecordForm } from '../record/record-form.ts';
import { Removing } from '../record/removing.tsx';
import { Figures } from './figures.tsx';
import { FilmPreview } from './film-preview.tsx';
import { HardenerPanel } from './hardener-panel.tsx';
import { type Material, materialCollection, type MaterialValues } from './material-collection.ts';
import { MaterialFields } from './material-fields.tsx';
import css from './materials.module.css';
import type { Change, Sheet } from './sheet.ts';
import { Times } from './times.tsx';
import { Versions } from './versions.tsx';

/** One material: what is known of it, how a film of it goes, and where the yard says otherwise. */
export function MaterialPage({ id }: { readonly id: string }) {
  const { id: yardId } = useYard();
  const { route } = useLocation();
  const path = { yardId, id };
  const live = {
    yardId,
    on: ({ subject, subjectId }: { readonly subject: string; readonly subjectId: string }) =>
      (subject === 'material' && subjectId === id) || subject === 'observation',
  };
  const material = useResource(
    `material ${id}`,
    (signal) => materialCollection.get(path, signal),
    live,
  );
  const sheet = useResource(
    `sheet ${id}`,
    (signal) =>
      asked(api.GET('/api/v1/yards/{yardId}/materials/{id}/sheet', { params: { path }, signal })),
    live,
  );
  const [isChanging, setChanging] = useState(false);

  if (material.data === undefined || sheet.data === undefined) {
    const problem = material.problem ?? sheet.problem;
    return (
      <RoomPage room="materials" title={setUp.rooms.materials}>
        {problem === undefined ? (
          <Busy />
        ) : problem.status === 404 ? (
          <Notice title={setUp.record.gone}>{setUp.record.goneCure}</Notice>
        ) : (
          <ProblemNotice problem={problem} again={material.again} />
        )}
      </RoomPage>
    );
  }
  const own = material.data;
  const known = sheet.data;
  const change: Change = {
    patch: async ({ revision }, patch) => {
      material.put(
        await asked(
          api.PATCH('/api/v1/yards/{yardId}/materials/{id}', {
            params: { path, header: ifMatch(revision) },
            body: patch,
          }),
        ),
      );
      sheet.again();
    },
    read: async () => {
      const now = await materialCollection.get(path, new AbortController().signal);
      material.put(now);
      sheet.again();
      return now;
    },
  };
  return (
    <RoomPage room="materials" title={own.name} isNarrow={false}>
      <p>{summaryOf(known)}</p>
      <Row>
        <Button onPress={() => setChanging(true)}>{texts.change}</Button>
        <Removing
          name={own.name}
          remove={() => materialCollection.remove(path, own.revision)}
          onRemoved={() => route(`/yards/${yardId}/set-up/materials`, true)}
        />
      </Row>
      {isChanging && (
        <Changing
          material={own}
          onSaved={(now) => {
            material.put(now);
            sheet.again();
            setChanging(false);
          }}
          onClose={() => setChanging(false)}
        />
      )}
      <div class={css['halves']}>
        <Cautions sheet={known} />
        <HardenerPanel material={own} sheet={known} change={change} />
      </div>
      <FilmPreview material={own} sheet={known} />
      <Times material={own} sheet={known} change={change} />
      <Figures material={own} sheet={known} change={change} />
      <Versions id={id} revision={own.revision} />
    </RoomPage>
  );
}

function summaryOf({ base, use, surface, waxed, blushes, belowMinimum }: Sheet): string {
  return texts.summary({
    base: texts.bases[base],
    use: texts.uses[use],
    surface: texts.surfaces[surface],
    waxed,
    blushes,
    belowMinimum: texts.belowMinimums[belowMinimum],
  });
}

/** Never behind a click: they are there whoever looks at the material. */
function Cautions({ sheet }: { readonly sheet: Sheet }) {
  return (
    <Panel title={texts.cautions}>
      <p class={css['soft']}>{texts.cautionsLead}</p>
      <ul class={css['cautions']}>
        {sheet.cautions.map(({ text, source }, at) => (
          <li key={at}>
            <span>{text}</span>
            <span class={css['soft']}>{texts.from(source)}</span>
          </li>
        ))}
      </ul>
    </Panel>
  );
}

function Changing({
  material,
  onSaved,
  onClose,
}: {
  readonly material: Material;
  readonly onSaved: (material: Material) => void;
  readonly onClose: () => void;
}) {
  const { id: yardId } = useYard();
  const at = { yardId, id: material.id };
  const form = useRecordForm<Material, MaterialValues>({
    draftKey: `${yardId} material ${material.id}`,
    record: material,
    valuesOf: (record) => materialCollection.valuesOf(record ?? material),
    change: (values, { revision }) => materialCollection.update(at, revision, values),
    read: () => materialCollection.get(at, new AbortController().signal),
    onSaved,
  });
  return (
    <FormDialog title={texts.change} form={form} onClose={onClose}>
      <TextField {...form.at('name')} label={setUp.record.name} required maxLength={120} />
      <MaterialFields form={form} />
    </FormDialog>
  );
}
