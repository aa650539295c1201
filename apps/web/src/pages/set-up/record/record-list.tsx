import { Fragment } from 'preact';
import { useState } from 'preact/hooks';
import { useParam } from '../../../frame/params.ts';
import { useResource } from '../../../api/resource.ts';
import { TextField } from '../../../form/fields.tsx';
import { useYard } from '../../../frame/yard.tsx';
import { Busy, ButtonLink, ProblemNotice } from '../../../looks/looks.tsx';
import { setUp as texts } from '../../../texts/set-up.ts';
import { RoomPage } from '../page.tsx';
import css from '../set-up.module.css';
import type { Named, Stored } from './collection.ts';
import { newId, RecordPage, type RoomOf } from './record-page.tsx';

/** A list longer than this can be searched. */
const few = 12;

/** A room of records: all of them, or the one in the address. */
export function RecordRoom<R extends Stored, V extends Named>({
  of,
}: {
  readonly of: RoomOf<R, V>;
}) {
  const id = useParam('id');
  return id === '' ? <RecordList of={of} /> : <RecordPage of={of} id={id} />;
}

function RecordList<R extends Stored, V extends Named>({ of }: { readonly of: RoomOf<R, V> }) {
  const yard = useYard();
  const { room, collection, newTitle, Line, Around = Fragment } = of;
  const { data, problem, again } = useResource(
    `${room} all`,
    (signal) => collection.list(yard.id, signal),
    { yardId: yard.id, on: ({ subject }) => subject === collection.subject },
  );
  const [find, setFind] = useState('');
  const base = `/yards/${yard.id}/set-up/${room}`;
  const wanted = find.trim().toLowerCase();
  const shown = data?.filter(({ name }) => name.toLowerCase().includes(wanted)) ?? [];
  return (
    <RoomPage room={room} isNarrow={false}>
      <p class={css['soft']}>{texts.about[room]}</p>
      <div>
        <ButtonLink to={`${base}/${newId}`} kind="do">
          {newTitle}
        </ButtonLink>
      </div>
      <ProblemNotice problem={problem} again={again} />
      {data === undefined && problem === undefined && <Busy />}
      {data !== undefined && data.length > few && (
        <TextField type="search" label={texts.record.find} value={find} onValue={setFind} />
      )}
      <div role="status">
        {data !== undefined && data.length > 0 && shown.length === 0 && texts.record.findNone}
      </div>
      <Around>
        <ul class={css['tiles']}>
          {shown.map((record) => (
            <li key={record.id}>
              <a class={css['tile']} href={`${base}/${record.id}`}>
                <span class={css['tileName']}>
                  <bdi>{record.name}</bdi>
                </span>
                <span class={css['soft']}>
                  <Line record={record} />
                </span>
              </a>
            </li>
          ))}
        </ul>
      </Around>
    </RoomPage>
  );
}
