import { useState } from 'preact/hooks';
import { api, asked, type Schema } from '../../../api/client.ts';
import { problemOf } from '../../../api/problem.ts';
import { useResource } from '../../../api/resource.ts';
import { TextField } from '../../../form/fields.tsx';
import { useForm } from '../../../form/form.ts';
import { useYard } from '../../../frame/yard.tsx';
import { Busy, Button, Notice, Panel, ProblemNotice, Stack } from '../../../looks/looks.tsx';
import { dayAndClock } from '../../../show/time.ts';
import { common } from '../../../texts/common.ts';
import { air } from '../../../texts/set-up-air.ts';
import { RoomPage } from '../page.tsx';
import css from '../set-up.module.css';
import { TemperatureChart } from './chart.tsx';
import { type Gap, hourlyOf, type Hourly, longestGap } from './hourly.ts';
import { useTable } from './table-input.tsx';

const texts = air.outdoor;
const hourMs = 3_600_000;
type Outdoor = Schema<'Outdoor'>;

/** The hourly table that unheated spaces follow. */
export default function OutdoorRoom() {
  const { id: yardId } = useYard();
  const [isDone, setDone] = useState(false);
  const { data, problem, again, put } = useResource(
    `outdoor ${yardId}`,
    (signal) =>
      asked(
        api.GET('/api/v1/yards/{yardId}/outdoor', { params: { path: { yardId } }, signal }),
      ).catch((error: unknown) => {
        if (problemOf(error).status === 404) return null;
        throw error;
      }),
    { yardId, on: ({ subject }) => subject === 'outdoor' },
  );
  return (
    <RoomPage room="outdoor" isNarrow={false}>
      <p class={css['soft']}>{texts.lead}</p>
      <ProblemNotice problem={problem} again={again} />
      <div role="status">{isDone && <Notice tone="well">{common.saved}</Notice>}</div>
      {data === undefined && problem === undefined && <Busy />}
      {data === null && <p>{texts.none}</p>}
      {data !== undefined && data !== null && <Present outdoor={data} />}
      <Import
        onDone={(outdoor) => {
          put(outdoor);
          setDone(true);
        }}
      />
    </RoomPage>
  );
}

function Present({ outdoor: { from, celsius, humidity, source } }: { readonly outdoor: Outdoor }) {
  const { timeZone } = useYard();
  const start = Date.parse(from);
  const end = start + celsius.length * hourMs;
  return (
    <Panel>
      <p>
        {texts.range(dayAndClock(start, timeZone), dayAndClock(end, timeZone))}{' '}
        {humidity.length > 0 ? texts.withHumidity : texts.withoutHumidity}
      </p>
      <p class={css['soft']}>{texts.source(source)}</p>
      <TemperatureChart
        label={texts.chart}
        hours={celsius.map((value, k) => ({
          at: start + k * hourMs,
          cold: value,
          expected: value,
          warm: value,
        }))}
        now={Date.now()}
      />
    </Panel>
  );
}

const isGap = (table: Hourly | Gap): table is Gap => 'to' in table;

function Import({ onDone }: { readonly onDone: (outdoor: Outdoor) => void }) {
  const { id: yardId } = useYard();
  const table = useTable();
  const hourly = hourlyOf(table.parsed.rows);
  const ready = hourly === null || isGap(hourly) ? null : hourly;
  const form = useForm({ source: '' }, async ({ source }) => {
    if (ready === null) return;
    const outdoor = await asked(
      api.PUT('/api/v1/yards/{yardId}/outdoor', {
        params: { path: { yardId } },
        body: {
          from: new Date(ready.from).toISOString(),
          celsius: [...ready.celsius],
          humidity: [...ready.humidity],
          source,
        },
      }),
    );
    table.clear();
    form.reset({ source: '' });
    onDone(outdoor);
  });
  return (
    <Panel title={texts.importTitle}>
      <p class={css['soft']}>{texts.importHint}</p>
      <form onSubmit={form.submit}>
        <Stack>
          {table.fields}
          {!table.isEmpty && <Found table={hourly} />}
          <TextField
            {...form.at('source')}
            label={texts.sourceField}
            hint={texts.sourceHint}
            required
            maxLength={300}
          />
          <ProblemNotice problem={form.problem} />
          <div>
            <Button kind="do" type="submit" isBusy={form.isBusy} disabled={ready === null}>
              {texts.put}
            </Button>
          </div>
        </Stack>
      </form>
    </Panel>
  );
}

function Found({ table }: { readonly table: Hourly | Gap | null }) {
  const { timeZone } = useYard();
  const when = (at: number): string => dayAndClock(at, timeZone);
  if (table === null) return <Notice tone="heed">{texts.nothing}</Notice>;
  if (isGap(table)) {
    return <Notice tone="harm">{texts.gap(when(table.from), when(table.to), longestGap)}</Notice>;
  }
  const { from, celsius, filled } = table;
  return (
    <p role="status">
      {texts.found(when(from), when(from + celsius.length * hourMs), texts.hours(celsius.length))}{' '}
      {filled > 0 && texts.filled(filled)}
    </p>
  );
}
