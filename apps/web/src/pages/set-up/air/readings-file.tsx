import { useState } from 'preact/hooks';
import { api, asked, once, type Schema } from '../../../api/client.ts';
import { ChoiceField } from '../../../form/fields.tsx';
import { useForm } from '../../../form/form.ts';
import { useYard } from '../../../frame/yard.tsx';
import { Button, Notice, Panel, ProblemNotice, Stack } from '../../../looks/looks.tsx';
import { dayAndClock } from '../../../show/time.ts';
import { air } from '../../../texts/set-up-air.ts';
import { optionsOf } from '../lists/lists.ts';
import css from '../set-up.module.css';
import { useTable } from './table-input.tsx';

const texts = air.readings;
const minuteMs = 60_000;
const ofs = ['air', 'surface'] as const;

/** What a logger wrote down, taken in as a whole. */
export function ReadingsFile({
  spaces,
  onDone,
}: {
  readonly spaces: readonly Schema<'Space'>[];
  readonly onDone: () => void;
}) {
  const { id: yardId, timeZone } = useYard();
  const [said, setSaid] = useState<string>();
  const table = useTable();
  const { rows } = table.parsed;
  const begin = { space: spaces[0]?.id ?? '', of: 'air' as (typeof ofs)[number] };
  const form = useForm(begin, async ({ space, of }) => {
    setSaid(undefined);
    const { items, skipped } = await asked(
      api.POST('/api/v1/yards/{yardId}/readings', {
        params: { path: { yardId } },
        headers: once(),
        body: {
          skipKnown: true,
          readings: rows.map(({ at, celsius, humidity }) => ({
            space,
            of,
            // Loggers write seconds; readings are of a minute.
            at: new Date(Math.floor(at / minuteMs) * minuteMs).toISOString(),
            celsius,
            humidity,
          })),
        },
      }),
    );
    table.clear();
    setSaid(texts.added(items.length, skipped));
    onDone();
  });
  const { values, set } = form;
  const [first, last] = [rows.at(0), rows.at(-1)];
  if (spaces.length === 0) return null;
  return (
    <Panel title={texts.import}>
      <p class={css['soft']}>{texts.importHint}</p>
      <form onSubmit={form.submit}>
        <Stack>
          <div class={css['cols']}>
            <ChoiceField
              label={texts.space}
              value={values.space}
              onValue={(space) => set('space', space)}
              options={optionsOf(spaces)}
            />
            <ChoiceField
              label={texts.of}
              value={values.of}
              onValue={(of) => set('of', of === 'air' ? 'air' : 'surface')}
              options={ofs.map((value) => ({ value, label: texts.ofs[value] }))}
            />
          </div>
          {table.fields}
          {first !== undefined && last !== undefined && (
            <p role="status">
              {air.outdoor.found(
                dayAndClock(first.at, timeZone),
                dayAndClock(last.at, timeZone),
                texts.count(rows.length),
              )}
            </p>
          )}
          <ProblemNotice problem={form.problem} />
          <div role="status">{said !== undefined && <Notice tone="well">{said}</Notice>}</div>
          <div>
            <Button type="submit" isBusy={form.isBusy} disabled={rows.length === 0}>
              {texts.put}
            </Button>
          </div>
        </Stack>
      </form>
    </Panel>
  );
}
