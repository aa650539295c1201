import { useLocation } from 'preact-iso/router';
import type { ComponentChildren, ComponentType } from 'preact';
import { useRef, useState } from 'preact/hooks';
import { useResource } from '../../../api/resource.ts';
import { TextField } from '../../../form/fields.tsx';
import type { Form } from '../../../form/form.ts';
import { idFor } from '../../../form/names.ts';
import { useYard } from '../../../frame/yard.tsx';
import { Button, Busy, Notice, ProblemNotice, Stack } from '../../../looks/looks.tsx';
import { common } from '../../../texts/common.ts';
import { setUp as texts } from '../../../texts/set-up.ts';
import { RoomPage } from '../page.tsx';
import type { Room } from '../room.ts';
import css from '../set-up.module.css';
import type { Collection, Named, Stored } from './collection.ts';
import { DraftNotice, FormEnd } from './form-end.tsx';
import { useRecordForm } from './record-form.ts';
import { Removing } from './removing.tsx';

/** The address of one that is still to be made: no id begins so. */
export const newId = '+';

export interface RoomOf<R extends Stored, V extends Named> {
  readonly room: Room;
  readonly collection: Collection<R, V>;
  /** What the page of a new one is called, `New person`. */
  readonly newTitle: string;
  /** Around the list, for what its lines know in common. */
  readonly Around?: ComponentType<{ readonly children: ComponentChildren }>;
  /** What a record says of itself in the list. */
  readonly Line: ComponentType<{ readonly record: R }>;
  /** The fields but for the name. */
  readonly Fields: ComponentType<{ readonly form: Form<V>; readonly record: R | null }>;
  /** What there is to do with one that is saved, beside the form where there is room. */
  readonly Below?: ComponentType<{ readonly record: R; readonly again: () => void }>;
}

/** One record: read, changed, made, removed. */
export function RecordPage<R extends Stored, V extends Named>({
  of,
  id,
}: {
  readonly of: RoomOf<R, V>;
  readonly id: string;
}) {
  const yard = useYard();
  const { route } = useLocation();
  const isNew = id === newId;
  const { room, collection, newTitle } = of;
  const record = useResource(
    isNew ? null : `${room} ${id}`,
    (signal) => collection.get({ yardId: yard.id, id }, signal),
    {
      yardId: yard.id,
      on: ({ subject, subjectId }) => subject === collection.subject && subjectId === id,
    },
  );
  const all = useResource(isNew ? `${room} all` : null, (signal) =>
    collection.list(yard.id, signal),
  );
  const [saved, setSaved] = useState<string>();
  const base = `/yards/${yard.id}/set-up/${room}`;

  if (isNew ? all.data === undefined : record.data === undefined) {
    const problem = isNew ? all.problem : record.problem;
    return (
      <RoomPage room={room} title={isNew ? newTitle : texts.rooms[room]}>
        {problem === undefined ? (
          <Busy />
        ) : problem.status === 404 ? (
          <Notice title={texts.record.gone}>{texts.record.goneCure}</Notice>
        ) : (
          <ProblemNotice problem={problem} again={isNew ? all.again : record.again} />
        )}
      </RoomPage>
    );
  }
  const hasMore = record.data !== undefined && of.Below !== undefined;
  return (
    <RoomPage room={room} title={record.data?.name ?? newTitle} isNarrow={!hasMore}>
      <div role="status">{saved !== undefined && <Notice tone="well">{saved}</Notice>}</div>
      <div class={hasMore ? css['beside'] : undefined}>
        <RecordForm
          key={id}
          of={of}
          record={record.data ?? null}
          taken={(all.data ?? []).map((one) => one.id)}
          onSaved={(now, wasNew, andAnother) => {
            setSaved(common.saved);
            if (!wasNew) record.put(now);
            else if (andAnother) all.again();
            else route(`${base}/${now.id}`);
          }}
          onEdited={() => setSaved(undefined)}
        >
          {record.data !== undefined && (
            <Removing
              name={record.data.name}
              remove={() => collection.remove({ yardId: yard.id, id }, record.data?.revision ?? 0)}
              onRemoved={() => route(base, true)}
            />
          )}
        </RecordForm>
        {record.data !== undefined && of.Below !== undefined && (
          <of.Below record={record.data} again={record.again} />
        )}
      </div>
    </RoomPage>
  );
}

function RecordForm<R extends Stored, V extends Named>({
  of,
  record,
  taken,
  onSaved,
  onEdited,
  children,
}: {
  readonly of: RoomOf<R, V>;
  readonly record: R | null;
  readonly taken: readonly string[];
  readonly onSaved: (record: R, wasNew: boolean, andAnother: boolean) => void;
  readonly onEdited: () => void;
  readonly children: ComponentChildren;
}) {
  const yard = useYard();
  const box = useRef<HTMLFormElement>(null);
  const another = useRef(false);
  const { room, collection, Fields } = of;
  const form = useRecordForm<R, V>({
    draftKey: `${yard.id} ${room} ${record?.id ?? newId}`,
    record,
    valuesOf: (one) => (one === null ? collection.blank(yard) : collection.valuesOf(one)),
    making: {
      idOf: (values) => idFor(values.name, taken),
      create: ({ id, values, key }) => collection.create({ yardId: yard.id, id }, values, key),
    },
    change: (values, { id, revision }) =>
      collection.update({ yardId: yard.id, id }, revision, values),
    read: ({ id }) => collection.get({ yardId: yard.id, id }, new AbortController().signal),
    onSaved: (now, wasNew) => {
      onSaved(now, wasNew, another.current);
      if (wasNew) box.current?.querySelector('input')?.focus();
    },
  });
  return (
    <form ref={box} onSubmit={form.submit} onInput={onEdited}>
      <Stack>
        <DraftNotice form={form} />
        <TextField {...form.at('name')} label={texts.record.name} required maxLength={120} />
        <Fields form={form} record={record} />
        <FormEnd
          form={form}
          onSave={() => {
            another.current = false;
          }}
        >
          {record === null && (
            <Button
              type="submit"
              isBusy={form.isBusy}
              onPress={() => {
                another.current = true;
              }}
            >
              {texts.record.saveAndNext}
            </Button>
          )}
          {children}
        </FormEnd>
      </Stack>
    </form>
  );
}
