import { useState } from 'preact/hooks';
import { api, asked, type Schema } from '../../../api/client.ts';
import { useResource } from '../../../api/resource.ts';
import { ChoiceField, QuantityField } from '../../../form/fields.tsx';
import { useYard } from '../../../frame/yard.tsx';
import { Busy, Panel, ProblemNotice } from '../../../looks/looks.tsx';
import { procedures } from '../../../texts/procedures.ts';
import { optionsOf, useList } from '../lists/lists.ts';
import css from '../set-up.module.css';
import { PreviewTasks } from './preview-tasks.tsx';
import type { ProcedureValues } from './procedure-values.ts';

const texts = procedures.preview;

interface Sizing {
  /** Empty: sizes of one's own. Undefined: nothing has been chosen yet. */
  readonly part: string | undefined;
  readonly areaM2: number | null;
  readonly edgeM: number | null;
  readonly jointM: number | null;
  readonly space: string;
  readonly destination: string;
}

const orNothing = (id: string): string | undefined => (id === '' ? undefined : id);

function bodyOf(sizing: Sizing, part: string): Schema<'ProcedurePreviewInput'> {
  const { areaM2, edgeM, jointM, space, destination } = sizing;
  const to = orNothing(destination);
  const moves = to === undefined ? {} : { destination: to };
  if (part !== '') return { part, ...moves };
  const where = orNothing(space);
  return {
    areaM2: areaM2 ?? 0,
    edgeM: edgeM ?? 0,
    jointM: jointM ?? 0,
    ...(where === undefined ? {} : { space: where }),
    ...moves,
  };
}

/** The tasks that a version, or a draft of one, makes for a part or for sizes of one's own. */
export function Preview({
  procedureId,
  version,
  draft,
}: {
  readonly procedureId: string;
  readonly version: number | undefined;
  readonly draft: ProcedureValues | undefined;
}) {
  const { id: yardId } = useYard();
  const boats = useList('boats');
  const spaces = useList('spaces');
  const [sizing, setSizing] = useState<Sizing>({
    part: undefined,
    areaM2: 4,
    edgeM: 8,
    jointM: 4,
    space: '',
    destination: '',
  });
  const set = (some: Partial<Sizing>): void => setSizing((was) => ({ ...was, ...some }));
  const parts = (boats.data ?? []).flatMap((boat) =>
    boat.refits.flatMap((refit) => refit.parts.map((part) => ({ part, boat }))),
  );
  // One that is really worked by it says most.
  const usual = parts.find(({ part }) => part.jobs.some((job) => job.procedure === procedureId));
  const part = sizing.part ?? usual?.part.id ?? parts.at(0)?.part.id ?? '';
  const body: Schema<'ProcedurePreviewInput'> = {
    ...bodyOf(sizing, part),
    ...(version === undefined ? {} : { version }),
    ...(draft === undefined ? {} : { draft }),
  };
  const preview = useResource(
    boats.data === undefined ? null : `preview ${procedureId} ${JSON.stringify(body)}`,
    (signal) =>
      asked(
        api.POST('/api/v1/yards/{yardId}/procedures/{id}/preview', {
          params: { path: { yardId, id: procedureId } },
          body,
          signal,
        }),
      ),
    { yardId, on: ({ subject }) => ['material', 'fabric', 'part', 'space'].includes(subject) },
  );
  return (
    <Panel title={texts.title}>
      <p class={css['soft']}>
        {parts.length === 0 && boats.data !== undefined ? texts.noParts : texts.lead}
      </p>
      <div class={css['cols']}>
        <ChoiceField
          label={texts.of}
          value={part}
          onValue={(id) => set({ part: id })}
          options={[
            ...parts.map((one) => ({
              value: one.part.id,
              label: texts.part(one.part.name, one.boat.name),
            })),
            { value: '', label: texts.ownSizes },
          ]}
        />
        {part === '' && (
          <>
            <QuantityField
              kind="area"
              label={texts.area}
              value={sizing.areaM2}
              onValue={(areaM2) => set({ areaM2 })}
            />
            <QuantityField
              kind="length"
              label={texts.edge}
              value={sizing.edgeM}
              onValue={(edgeM) => set({ edgeM })}
            />
            <QuantityField
              kind="length"
              label={texts.joint}
              value={sizing.jointM}
              onValue={(jointM) => set({ jointM })}
            />
            <ChoiceField
              label={texts.space}
              value={sizing.space}
              onValue={(space) => set({ space })}
              options={[{ value: '', label: texts.nowhere }, ...optionsOf(spaces.data)]}
            />
          </>
        )}
        <ChoiceField
          label={texts.destination}
          value={sizing.destination}
          onValue={(destination) => set({ destination })}
          options={[{ value: '', label: texts.stays }, ...optionsOf(spaces.data)]}
        />
      </div>
      <ProblemNotice problem={preview.problem ?? boats.problem} again={preview.again} />
      {preview.data === undefined && preview.problem === undefined && <Busy />}
      {preview.data !== undefined && <PreviewTasks preview={preview.data} />}
    </Panel>
  );
}
