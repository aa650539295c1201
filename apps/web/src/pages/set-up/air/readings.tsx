import { useState } from 'preact/hooks';
import { api, asked, type Schema } from '../../../api/client.ts';
import { readingsOf } from '../../../api/readings.ts';
import { useResource } from '../../../api/resource.ts';
import { ChoiceField, TextField } from '../../../form/fields.tsx';
import { useYard } from '../../../frame/yard.tsx';
import { Busy, Button, Panel, ProblemNotice, Table } from '../../../looks/looks.tsx';
import { units } from '../../../session/session.ts';
import { dateIn, dayAndClock, instantOf } from '../../../show/time.ts';
import { number, quantity } from '../../../show/units.ts';
import { common } from '../../../texts/common.ts';
import { air } from '../../../texts/set-up-air.ts';
import { nameIn, optionsOf, useList } from '../lists/lists.ts';
import { RoomPage } from '../page.tsx';
import { Asking } from '../record/removing.tsx';
import css from '../set-up.module.css';
import { NewReading } from './new-reading.tsx';
import { ReadingsFile } from './readings-file.tsx';

const texts = air.readings;
const dayMs = 86_400_000;
/** As many as anybody reads through; more come when asked for. */
const some = 60;
type Reading = Schema<'Reading'>;

/** What thermometers said: of a space, in a time. */
export default function Readings() {
  const { id: yardId, timeZone } = useYard();
  const spaces = useList('spaces');
  const [space, setSpace] = useState('');
  const [from, setFrom] = useState(() => dateIn(Date.now() - 6 * dayMs, timeZone));
  const [shown, setShown] = useState(some);
  const start = from === '' ? undefined : instantOf(`${from}T00:00`, timeZone);
  const { data, problem, again } = useResource(
    `readings ${yardId} ${space} ${start ?? ''}`,
    (signal) =>
      readingsOf(yardId, { space: space === '' ? undefined : space, from: start }, signal),
    { yardId, on: ({ kind }) => kind.startsWith('reading') },
  );
  const newest = data?.toSorted((a, b) => Date.parse(b.at) - Date.parse(a.at));
  return (
    <RoomPage room="readings" isNarrow={false}>
      <p class={css['soft']}>{texts.lead}</p>
      <ProblemNotice problem={spaces.problem} again={spaces.again} />
      {spaces.data !== undefined && (
        <>
          <NewReading spaces={spaces.data} onDone={again} />
          <ReadingsFile spaces={spaces.data} onDone={again} />
        </>
      )}
      <Panel title={texts.list}>
        <div class={css['cols']}>
          <ChoiceField
            label={texts.space}
            value={space}
            onValue={setSpace}
            options={[{ value: '', label: texts.allSpaces }, ...optionsOf(spaces.data)]}
          />
          <TextField type="date" label={texts.from} value={from} onValue={setFrom} />
        </div>
        <ProblemNotice problem={problem} again={again} />
        {newest === undefined && problem === undefined && <Busy />}
        {newest?.length === 0 && <p>{texts.none}</p>}
        {newest !== undefined && newest.length > 0 && (
          <Rows
            readings={newest.slice(0, shown)}
            spaceOf={(id) => nameIn(spaces.data, id)}
            onRemoved={again}
          />
        )}
        {newest !== undefined && newest.length > shown && (
          <div>
            <Button onPress={() => setShown(shown + some)}>{texts.more}</Button>
          </div>
        )}
      </Panel>
    </RoomPage>
  );
}

function Rows({
  readings,
  spaceOf,
  onRemoved,
}: {
  readonly readings: readonly Reading[];
  readonly spaceOf: (id: string) => string;
  readonly onRemoved: () => void;
}) {
  const { id: yardId, timeZone } = useYard();
  const [removing, setRemoving] = useState<Reading>();
  const mine = units.value;
  const when = ({ at }: Reading): string => dayAndClock(at, timeZone);
  return (
    <>
      <Table caption={texts.list}>
        <thead>
          <tr>
            <th scope="col">{texts.at}</th>
            <th scope="col">{texts.space}</th>
            <th scope="col">{texts.of}</th>
            <th scope="col">{texts.celsius}</th>
            <th scope="col">{texts.humidity}</th>
            <th scope="col">{texts.note}</th>
            <td />
          </tr>
        </thead>
        <tbody>
          {readings.map((reading) => (
            <tr key={reading.id}>
              <th scope="row">{when(reading)}</th>
              <td>{spaceOf(reading.space)}</td>
              <td>{texts.ofs[reading.of]}</td>
              <td>{quantity('temperature', reading.celsius, mine)}</td>
              <td>{reading.humidity !== null && texts.humidityOf(number(reading.humidity, 0))}</td>
              <td>{reading.note}</td>
              <td>
                <Button label={texts.remove(when(reading))} onPress={() => setRemoving(reading)}>
                  {common.remove}
                </Button>
              </td>
            </tr>
          ))}
        </tbody>
      </Table>
      {removing !== undefined && (
        <Asking
          title={texts.removing(when(removing))}
          warning={texts.warning}
          doIt={common.remove}
          act={() =>
            asked(
              api.DELETE('/api/v1/yards/{yardId}/readings/{id}', {
                params: { path: { yardId, id: removing.id } },
              }),
            )
          }
          onDone={() => {
            setRemoving(undefined);
            onRemoved();
          }}
          onClose={() => setRemoving(undefined)}
        />
      )}
    </>
  );
}
