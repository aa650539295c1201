import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import { useResource } from '../../../api/resource.ts';
import type { Form } from '../../../form/form.ts';
import { useYard } from '../../../frame/yard.tsx';
import { Busy, Notice, ProblemNotice, Stack } from '../../../looks/looks.tsx';
import { common } from '../../../texts/common.ts';
import { RoomPage } from '../page.tsx';
import { DraftNotice, FormEnd } from '../record/form-end.tsx';
import { useRecordForm } from '../record/record-form.ts';
import type { Room } from '../room.ts';

interface Kept {
  readonly revision: number;
}

export interface Settings<R extends Kept, V extends object> {
  readonly room: Room;
  /** As the yard's log calls a change of them. */
  readonly event: string;
  readonly read: (yardId: string, signal?: AbortSignal) => Promise<R>;
  readonly save: (yardId: string, revision: number, values: V) => Promise<R>;
  readonly valuesOf: (record: R) => V;
  readonly fields: (form: Form<V>) => ComponentChildren;
}

/** What there is one of in a yard: read, changed, saved. */
export function SettingsRoom<R extends Kept, V extends object>({
  of,
  onSaved,
  children,
}: {
  readonly of: Settings<R, V>;
  readonly onSaved?: (record: R) => void;
  readonly children?: ComponentChildren;
}) {
  const { id } = useYard();
  const { data, problem, again, put } = useResource(
    `${of.room} of ${id}`,
    (signal) => of.read(id, signal),
    { yardId: id, on: ({ kind }) => kind === of.event },
  );
  return (
    <RoomPage room={of.room}>
      <ProblemNotice problem={problem} again={again} />
      {data === undefined && problem === undefined && <Busy />}
      {data !== undefined && (
        <SettingsForm
          of={of}
          record={data}
          onSaved={(record) => {
            put(record);
            onSaved?.(record);
          }}
        />
      )}
      {children}
    </RoomPage>
  );
}

function SettingsForm<R extends Kept, V extends object>({
  of,
  record,
  onSaved,
}: {
  readonly of: Settings<R, V>;
  readonly record: R;
  readonly onSaved: (record: R) => void;
}) {
  const { id } = useYard();
  const [isSaved, setSaved] = useState(false);
  const form = useRecordForm<R, V>({
    draftKey: `${id} ${of.room}`,
    record,
    valuesOf: (one) => of.valuesOf(one ?? record),
    change: (values, { revision }) => of.save(id, revision, values),
    read: () => of.read(id),
    onSaved: (now) => {
      setSaved(true);
      onSaved(now);
    },
  });
  return (
    <form onSubmit={form.submit} onInput={() => setSaved(false)}>
      <Stack>
        <div role="status">{isSaved && <Notice tone="well">{common.saved}</Notice>}</div>
        <DraftNotice form={form} />
        {of.fields(form)}
        <FormEnd form={form} />
      </Stack>
    </form>
  );
}
