import { useState } from 'preact/hooks';
import { api, asked } from '../../../api/client.ts';
import { useResource } from '../../../api/resource.ts';
import { ChoiceField, TextField } from '../../../form/fields.tsx';
import { useYard } from '../../../frame/yard.tsx';
import { Busy, Notice, Panel, ProblemNotice, Table } from '../../../looks/looks.tsx';
import { units } from '../../../session/session.ts';
import { dateIn, dayAndClock, instantOf } from '../../../show/time.ts';
import { number, quantity } from '../../../show/units.ts';
import { spaces } from '../../../texts/set-up-spaces.ts';
import { TemperatureChart } from '../air/chart.tsx';
import { optionsOf, useList } from '../lists/lists.ts';
import css from '../set-up.module.css';
import type { Space } from './collection.ts';
import { type ClimateHour, least, type Stretch, stretchesOf } from './forecast-words.ts';

const texts = spaces.forecast;
const hourMs = 3_600_000;
const spans = [3, 7, 14, 28] as const;

/** How warm and damp a space will be, and whether a material may be applied then. */
export function Forecast({ record: space }: { readonly record: Space }) {
  const { id: yardId, timeZone } = useYard();
  const [from, setFrom] = useState(() => dateIn(Date.now(), timeZone));
  const [days, setDays] = useState(7);
  const [material, setMaterial] = useState('');
  const materials = useList('materials');
  const start = from === '' ? null : instantOf(`${from}T00:00`, timeZone);
  const { data, problem, isBusy, again } = useResource(
    start === null ? null : `climate ${space.id} ${start} ${String(days)} ${material}`,
    (signal) =>
      asked(
        api.GET('/api/v1/yards/{yardId}/spaces/{id}/climate', {
          params: {
            path: { yardId, id: space.id },
            query: {
              from: start ?? '',
              until: new Date(Date.parse(start ?? '') + days * 24 * hourMs).toISOString(),
              ...(material === '' ? {} : { material }),
            },
          },
          signal,
        }),
      ),
    {
      yardId,
      on: ({ subject }) => ['space', 'outdoor', 'material'].includes(subject),
    },
  );
  return (
    <Panel title={texts.title}>
      <p class={css['soft']}>{texts.lead}</p>
      <div class={css['cols']}>
        <TextField type="date" label={texts.from} value={from} onValue={setFrom} />
        <ChoiceField
          label={texts.days}
          value={String(days)}
          onValue={(value) => setDays(Number(value))}
          options={spans.map((count) => ({ value: String(count), label: texts.dayCount(count) }))}
        />
        <ChoiceField
          label={texts.material}
          value={material}
          onValue={setMaterial}
          options={[{ value: '', label: texts.noMaterial }, ...optionsOf(materials.data)]}
        />
      </div>
      <ProblemNotice problem={problem} again={again} />
      {data === undefined && isBusy && <Busy />}
      {data !== undefined && <Days space={space} hours={data.hours} />}
    </Panel>
  );
}

function Days({ space, hours }: { readonly space: Space; readonly hours: readonly ClimateHour[] }) {
  const stretches = stretchesOf(hours);
  if (hours.length === 0) return <p>{texts.none}</p>;
  return (
    <>
      <InWords hours={hours} />
      <TemperatureChart
        label={texts.chart(space.name)}
        hours={hours.map(({ when, air, surface }) => ({
          at: Date.parse(when.at),
          ...air,
          ...(space.skin === null ? {} : { surface: surface.expected }),
        }))}
        stretches={stretches}
        now={Date.now()}
      />
      {stretches.length > 0 && <Verdicts stretches={stretches} />}
      <MouldingShop hours={hours} />
      <details>
        <summary class={css['summary']}>{texts.table}</summary>
        <AsTable space={space} hours={hours} />
      </details>
    </>
  );
}

function InWords({ hours }: { readonly hours: readonly ClimateHour[] }) {
  const { timeZone } = useYard();
  const mine = units.value;
  const when = (at: string): string => dayAndClock(at, timeZone);
  const warm = (celsius: number): string => quantity('temperature', celsius, mine);
  const coldest = least(hours, ({ air }) => air.cold);
  const warmest = least(hours, ({ air }) => -air.warm);
  const dampest = least(hours, ({ humidity }) => (humidity === null ? null : -humidity));
  const margin = least(hours, ({ leastMarginC }) => leastMarginC);
  const assumed = hours.find((hour) => hour.assumed);
  return (
    <>
      <ul>
        {coldest !== undefined && <li>{texts.coldest(warm(coldest.value), when(coldest.at))}</li>}
        {warmest !== undefined && <li>{texts.warmest(warm(-warmest.value), when(warmest.at))}</li>}
        {dampest !== undefined && (
          <li>{texts.dampest(number(-dampest.value, 0), when(dampest.at))}</li>
        )}
        {margin !== undefined && (
          <li>{texts.margin(quantity('degrees', margin.value, mine), when(margin.at))}</li>
        )}
      </ul>
      {assumed !== undefined && <Notice tone="heed">{texts.assumed(when(assumed.when.at))}</Notice>}
    </>
  );
}

function Verdicts({ stretches }: { readonly stretches: readonly Stretch[] }) {
  const { timeZone } = useYard();
  return (
    <Table caption={texts.stretches}>
      <thead>
        <tr>
          <th scope="col">{texts.when}</th>
          <th scope="col">{texts.verdict}</th>
        </tr>
      </thead>
      <tbody>
        {stretches.map(({ from, to, kind, reasons }) => (
          <tr key={from}>
            <td>{texts.stretch(dayAndClock(from, timeZone), dayAndClock(to, timeZone))}</td>
            <td>
              {texts.verdicts[kind]}
              {reasons.map((reason) => (
                <div key={reason} class={css['soft']}>
                  {reason}
                </div>
              ))}
            </td>
          </tr>
        ))}
      </tbody>
    </Table>
  );
}

function MouldingShop({ hours }: { readonly hours: readonly ClimateHour[] }) {
  const short = [...new Set(hours.flatMap(({ mouldingShop }) => mouldingShop))];
  if (short.length === 0) return null;
  return (
    <details>
      <summary class={css['summary']}>{texts.mouldingShop}</summary>
      <ul>
        {short.map((words) => (
          <li key={words}>{words}</li>
        ))}
      </ul>
    </details>
  );
}

/** Every third hour: who wants to read it does not want to read 168 rows. */
const every = 3;

function AsTable({
  space,
  hours,
}: {
  readonly space: Space;
  readonly hours: readonly ClimateHour[];
}) {
  const { timeZone } = useYard();
  const mine = units.value;
  const warm = (celsius: number): string => quantity('temperature', celsius, mine);
  return (
    <Table caption={texts.chart(space.name)}>
      <thead>
        <tr>
          <th scope="col">{texts.when}</th>
          <th scope="col">{texts.cold}</th>
          <th scope="col">{texts.expected}</th>
          <th scope="col">{texts.warm}</th>
          <th scope="col">{texts.humidity}</th>
        </tr>
      </thead>
      <tbody>
        {hours
          .filter((_, k) => k % every === 0)
          .map(({ when, air, humidity }) => (
            <tr key={when.at}>
              <th scope="row">{dayAndClock(when.at, timeZone)}</th>
              <td>{warm(air.cold)}</td>
              <td>{warm(air.expected)}</td>
              <td>{warm(air.warm)}</td>
              <td>{humidity === null ? '' : `${number(humidity, 0)} %`}</td>
            </tr>
          ))}
      </tbody>
    </Table>
  );
}
