import { api, asked, ifMatch, type Schema } from '../../../api/client.ts';
import { ChoiceField } from '../../../form/fields.tsx';
import type { Form } from '../../../form/form.ts';
import { Panel } from '../../../looks/looks.tsx';
import { office } from '../../../texts/set-up-office.ts';
import { without } from '../record/collection.ts';
import { Needed } from '../rows/numbers.tsx';
import css from '../set-up.module.css';
import { type Settings, SettingsRoom } from './settings.tsx';

const texts = office.live;
type Live = Schema<'LiveSettings'>;
type Values = Omit<Live, 'revision'>;

/** What somebody begins with who lets plans be published by themselves. */
const fewMoves = 3;

function Fields({ form }: { readonly form: Form<Values> }) {
  const { values, set, faultAt } = form;
  return (
    <>
      <div class={css['cols']}>
        <Needed
          {...form.at('undoMinutes')}
          label={texts.undo}
          hint={texts.undoHint}
          unit={texts.minutes}
          min={0}
          max={1440}
          step={1}
        />
        <Needed
          label={texts.lease}
          unit={texts.minutes}
          min={1 / 60}
          value={values.leaseSeconds / 60}
          onValue={(minutes) => set('leaseSeconds', Math.round(minutes * 60))}
          fault={faultAt('leaseSeconds')}
        />
      </div>
      <Panel title={texts.publish}>
        <p class={css['soft']}>{texts.publishHint}</p>
        <ChoiceField
          label={texts.publishing}
          value={values.publishMovesUpTo === null ? 'never' : 'some'}
          onValue={(value) => set('publishMovesUpTo', value === 'never' ? null : fewMoves)}
          options={[
            { value: 'never', label: texts.publishNever },
            { value: 'some', label: texts.publishSome },
          ]}
        />
        {values.publishMovesUpTo !== null && (
          <Needed
            label={texts.moves}
            hint={texts.movesHint}
            min={0}
            step={1}
            value={values.publishMovesUpTo}
            onValue={(moves) => set('publishMovesUpTo', moves)}
            fault={faultAt('publishMovesUpTo')}
          />
        )}
      </Panel>
    </>
  );
}

const settings: Settings<Live, Values> = {
  room: 'live',
  event: 'live-settings-changed',
  read: (yardId, signal) =>
    asked(
      api.GET('/api/v1/yards/{yardId}/live-settings', {
        params: { path: { yardId } },
        ...(signal === undefined ? {} : { signal }),
      }),
    ),
  save: (yardId, revision, body) =>
    asked(
      api.PATCH('/api/v1/yards/{yardId}/live-settings', {
        params: { path: { yardId }, header: ifMatch(revision) },
        body,
      }),
    ),
  valuesOf: (live) => without(live, 'revision'),
  fields: (form) => <Fields form={form} />,
};

/** How live work is handled. */
export default function Live() {
  return <SettingsRoom of={settings} />;
}
