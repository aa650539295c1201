import { api, asked, ifMatch, type Schema } from '../../../api/client.ts';
import { CheckField } from '../../../form/fields.tsx';
import type { Form } from '../../../form/form.ts';
import { Notice } from '../../../looks/looks.tsx';
import { person } from '../../../session/session.ts';
import { office } from '../../../texts/set-up-office.ts';
import { without } from '../record/collection.ts';
import css from '../set-up.module.css';
import { type Settings, SettingsRoom } from './settings.tsx';

const texts = office.access;
type Access = Schema<'AccessSettings'>;
type Values = Omit<Access, 'revision'>;

function Fields({ form: { values, set } }: { readonly form: Form<Values> }) {
  const hasShown = (person.value?.secondFactorAt ?? null) !== null;
  return (
    <>
      <CheckField
        label={texts.second}
        value={values.secondFactorRequired}
        onValue={(isOn) => set('secondFactorRequired', isOn)}
      />
      <p class={css['soft']}>{texts.secondHint}</p>
      {values.secondFactorRequired && !hasShown && (
        <Notice tone="heed">
          <p>{texts.secondMissing}</p>
          <a href="/account">{texts.toAccount}</a>
        </Notice>
      )}
      <CheckField
        label={texts.owners}
        value={values.ownersSeeCrew}
        onValue={(isOn) => set('ownersSeeCrew', isOn)}
      />
    </>
  );
}

const settings: Settings<Access, Values> = {
  room: 'access',
  event: 'access-settings-changed',
  read: (yardId, signal) =>
    asked(
      api.GET('/api/v1/yards/{yardId}/access-settings', {
        params: { path: { yardId } },
        ...(signal === undefined ? {} : { signal }),
      }),
    ),
  save: (yardId, revision, body) =>
    asked(
      api.PATCH('/api/v1/yards/{yardId}/access-settings', {
        params: { path: { yardId }, header: ifMatch(revision) },
        body,
      }),
    ),
  valuesOf: (access) => without(access, 'revision'),
  fields: (form) => <Fields form={form} />,
};

/** What the yard asks of its members, and lets its owners see. */
export default function AccessRoom() {
  return <SettingsRoom of={settings} />;
}
