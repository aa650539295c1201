import { api, asked, ifMatch, type Schema } from '../../../api/client.ts';
import { TextField, ChoiceField, QuantityField } from '../../../form/fields.tsx';
import type { Form } from '../../../form/form.ts';
import { useYard } from '../../../frame/yard.tsx';
import { Panel } from '../../../looks/looks.tsx';
import look from '../../../looks/looks.module.css';
import { office } from '../../../texts/set-up-office.ts';
import { type Settings, SettingsRoom } from '../office/settings.tsx';
import { without } from '../record/collection.ts';
import { MoneyField, Needed, NeededMoment } from '../rows/numbers.tsx';
import css from '../set-up.module.css';
import { Consumables } from './consumables.tsx';

const texts = office.yard;
type Yard = Schema<'Yard'>;
export type YardValues = Omit<Yard, 'id' | 'revision'>;

const zones = (now: string): readonly string[] => {
  const all = Intl.supportedValuesOf('timeZone');
  return all.includes(now) ? all : [now, ...all];
};

function Fields({ form }: { readonly form: Form<YardValues> }) {
  const { values } = form;
  return (
    <>
      <TextField {...form.at('name')} label={texts.name} required maxLength={120} />
      <ChoiceField
        {...form.at('timeZone')}
        label={texts.zone}
        hint={texts.zoneHint}
        options={zones(values.timeZone).map((zone) => ({ value: zone, label: zone }))}
      />
      <Panel title={texts.planning}>
        <div class={css['cols']}>
          <NeededMoment {...form.at('planFrom')} label={texts.planFrom} hint={texts.planFromHint} />
          <Needed
            {...form.at('horizonDays')}
            label={texts.horizon}
            unit={texts.days}
            min={1}
            max={366}
            step={1}
          />
        </div>
      </Panel>
      <Panel title={texts.money}>
        <div class={css['cols']}>
          <TextField
            {...form.at('currency')}
            label={texts.currency}
            hint={texts.currencyHint}
            required
            maxLength={3}
          />
          <MoneyField
            {...form.at('moneyTolerance')}
            label={texts.tolerance}
            hint={texts.toleranceHint}
          />
        </div>
      </Panel>
      <Panel title={texts.work}>
        <div class={css['cols']}>
          <Needed
            {...form.at('cupShare')}
            label={texts.cupShare}
            hint={texts.cupShareHint}
            unit="%"
            min={5}
            max={95}
            step={1}
          />
          <QuantityField
            {...form.at('powerWatts')}
            kind="power"
            label={texts.power}
            hint={texts.powerHint}
            isOptional
          />
        </div>
        <Consumables form={form} />
      </Panel>
    </>
  );
}

const settings: Settings<Yard, YardValues> = {
  room: 'yard',
  event: 'yard-changed',
  read: (yardId, signal) =>
    asked(
      api.GET('/api/v1/yards/{yardId}', {
        params: { path: { yardId } },
        ...(signal === undefined ? {} : { signal }),
      }),
    ),
  save: (yardId, revision, values) =>
    asked(
      api.PATCH('/api/v1/yards/{yardId}', {
        params: { path: { yardId }, header: ifMatch(revision) },
        body: { ...values, currency: values.currency.toUpperCase() },
      }),
    ),
  valuesOf: (yard) => without(yard, 'id', 'revision'),
  fields: (form) => <Fields form={form} />,
};

/** The yard itself, and its file. */
export default function YardRoom() {
  const { id } = useYard();
  return (
    <SettingsRoom of={settings}>
      <Panel title={texts.file}>
        <p>{texts.fileHint}</p>
        <div>
          <a class={look['button']} href={`/api/v1/yards/${id}/export`} download={`${id}.json`}>
            {texts.download}
          </a>
        </div>
      </Panel>
    </SettingsRoom>
  );
}
