import { useState } from 'preact/hooks';
import { api, asked, type Schema } from '../../../api/client.ts';
import { ChoiceField, NumberField, TextField } from '../../../form/fields.tsx';
import { useForm } from '../../../form/form.ts';
import { useYard } from '../../../frame/yard.tsx';
import { Button, Notice, Panel, ProblemNotice, Stack } from '../../../looks/looks.tsx';
import { air } from '../../../texts/set-up-air.ts';
import { optionsOf } from '../lists/lists.ts';
import { NeededMoment, NeededQuantity } from '../rows/numbers.tsx';
import css from '../set-up.module.css';

const texts = air.readings;
const minuteMs = 60_000;
const ofs = ['air', 'surface'] as const;

const thisMinute = (): string =>
  new Date(Math.floor(Date.now() / minuteMs) * minuteMs).toISOString();

/** One thermometer, read by somebody. */
export function NewReading({
  spaces,
  onDone,
}: {
  readonly spaces: readonly Schema<'Space'>[];
  readonly onDone: () => void;
}) {
  const { id: yardId } = useYard();
  const [said, setSaid] = useState<string>();
  const begin = {
    space: spaces[0]?.id ?? '',
    of: 'air' as (typeof ofs)[number],
    at: thisMinute(),
    celsius: Number.NaN,
    humidity: null as number | null,
    note: '',
  };
  const form = useForm(begin, async (reading, headers) => {
    setSaid(undefined);
    const { items, skipped } = await asked(
      api.POST('/api/v1/yards/{yardId}/readings', {
        params: { path: { yardId } },
        headers,
        body: { readings: [reading] },
      }),
    );
    form.reset({ ...begin, space: reading.space, of: reading.of, at: thisMinute() });
    setSaid(texts.added(items.length, skipped));
    onDone();
  });
  const { values, set, faultAt } = form;
  const fault = (field: string): string | undefined => faultAt(`readings[0].${field}`);
  if (spaces.length === 0) return null;
  return (
    <Panel title={texts.add}>
      <form onSubmit={form.submit}>
        <Stack>
          <div class={css['cols']}>
            <ChoiceField
              label={texts.space}
              value={values.space}
              onValue={(space) => set('space', space)}
              options={optionsOf(spaces)}
              fault={fault('space')}
            />
            <ChoiceField
              label={texts.of}
              value={values.of}
              onValue={(of) => set('of', of === 'air' ? 'air' : 'surface')}
              options={ofs.map((value) => ({ value, label: texts.ofs[value] }))}
            />
            <NeededMoment
              label={texts.at}
              value={values.at}
              onValue={(at) => set('at', at)}
              fault={fault('at')}
            />
            <NeededQuantity
              kind="temperature"
              label={texts.celsius}
              value={values.celsius}
              onValue={(celsius) => set('celsius', celsius)}
              fault={fault('celsius')}
            />
            <NumberField
              label={texts.humidity}
              unit="%"
              isOptional
              min={1}
              max={100}
              value={values.humidity}
              onValue={(humidity) => set('humidity', humidity)}
              fault={fault('humidity')}
            />
            <TextField
              label={texts.note}
              isOptional
              maxLength={500}
              value={values.note}
              onValue={(note) => set('note', note)}
              fault={fault('note')}
            />
          </div>
          <ProblemNotice problem={form.problem} />
          <div role="status">{said !== undefined && <Notice tone="well">{said}</Notice>}</div>
          <div>
            <Button kind="do" type="submit" isBusy={form.isBusy}>
              {texts.add}
            </Button>
          </div>
        </Stack>
      </form>
    </Panel>
  );
}
