import { useLocation } from 'preact-iso/router';
import kitAddress from '../../../../../seeds/starting-kit.json?url';
import { Problem, problemOf } from '../../api/problem.ts';
import {
  CheckField,
  ChoiceField,
  QuantityField,
  SeveralField,
  TextField,
} from '../../form/fields.tsx';
import { type Form, useForm } from '../../form/form.ts';
import { Button, Notice, Panel, ProblemNotice } from '../../looks/looks.tsx';
import { person } from '../../session/session.ts';
import { begin as texts } from '../../texts/begin.ts';
import { common } from '../../texts/common.ts';
import css from './begin.module.css';
import { makeYardAnyhow } from './make-yard.ts';
import { type Answers, emptyYard, type StartingKit, yardWithKit } from './new-yard.ts';
import { OneOf } from './one-of.tsx';
import { currencyIn, zoneHere, zones } from './zones.ts';

const zoneOptions = zones().map((zone) => ({ value: zone, label: zone.replaceAll('_', ' ') }));
const currencyOptions = Intl.supportedValuesOf('currency').map((code) => ({
  value: code,
  label: code,
}));
const dayOptions = texts.weekdays.map((label, k) => ({ value: String(k + 1), label }));
const ways = [
  { value: 'alone', label: texts.alone },
  { value: 'with-others', label: texts.withOthers },
  { value: 'lead', label: texts.lead },
] as const;

const beginning: Answers = {
  name: '',
  timeZone: zoneHere(),
  currency: currencyIn(zoneHere()),
  way: 'with-others',
  ownBoats: false,
  days: ['1', '2', '3', '4', '5'],
  from: '08:00',
  to: '17:00',
  breakFrom: '12:30',
  breakTo: '13:00',
  place: texts.placeStart,
  // Gel coats want 18 °C and something to spare.
  celsius: 20,
  isHeld: true,
};

async function startingKit(): Promise<StartingKit> {
  const answer = await fetch(kitAddress).catch((cause: unknown) => {
    throw problemOf(cause);
  });
  if (!answer.ok) throw new Problem(answer.status, { detail: common.broken });
  // Made by our own build beside this page.
  return (await answer.json()) as StartingKit;
}

/** The few things that nobody but the yard knows; everything has a usual answer. */
export function ByHand({ withKit }: { readonly withKit: boolean }) {
  const { route } = useLocation();
  const form = useForm(beginning, async (answers) => {
    const me = person.peek();
    if (!me) return;
    const file = withKit
      ? yardWithKit(answers, me, await startingKit(), Date.now())
      : emptyYard(answers, Date.now());
    const yardId = await makeYardAnyhow(file);
    route(`/yards/${yardId}/set-up`, true);
  });
  return (
    <form class={css['form']} onSubmit={form.submit}>
      <Panel>
        <TextField {...form.at('name')} label={texts.name} maxLength={120} required />
        <div class={css['beside']}>
          <ChoiceField {...form.at('timeZone')} label={texts.zone} options={zoneOptions} />
          <ChoiceField {...form.at('currency')} label={texts.currency} options={currencyOptions} />
        </div>
      </Panel>
      {withKit && <WithKit form={form} />}
      <ProblemNotice problem={form.problem} />
      <div>
        <Button kind="do" type="submit" isBusy={form.isBusy}>
          {texts.make}
        </Button>
      </div>
    </form>
  );
}

function WithKit({ form }: { readonly form: Form<Answers> }) {
  const { values, set } = form;
  const fault = form.faultAt('spaces[0].climate.setPoints[0].celsius');
  return (
    <>
      <Panel>
        <OneOf
          label={texts.how}
          value={values.way}
          onValue={(way) => set('way', way)}
          choices={ways}
        />
        <CheckField
          label={texts.ownBoats}
          value={values.ownBoats}
          onValue={(isOwn) => set('ownBoats', isOwn)}
        />
      </Panel>
      {values.way !== 'lead' && <Hours form={form} />}
      <Panel title={texts.place}>
        <p>{texts.placeHint}</p>
        <TextField
          {...form.at('place')}
          label={texts.placeName}
          fault={form.faultAt('spaces[0].name')}
          maxLength={120}
          required
        />
        <QuantityField
          kind="temperature"
          label={texts.celsius}
          hint={values.isHeld ? texts.celsiusHint : `${texts.celsiusHint} ${texts.notHeld}`}
          value={values.celsius}
          onValue={(celsius) => set('celsius', celsius)}
          fault={fault}
          required
        />
        <CheckField
          label={texts.isHeld}
          value={values.isHeld}
          onValue={(isHeld) => set('isHeld', isHeld)}
        />
      </Panel>
      <Notice tone="heed" title={texts.startingValues}>
        <p>{texts.startingValuesCure}</p>
      </Notice>
    </>
  );
}

function Hours({ form }: { readonly form: Form<Answers> }) {
  return (
    <Panel title={texts.hours}>
      <div class={css['days']}>
        <SeveralField
          label={texts.days}
          values={form.values.days}
          onValues={(days) => form.set('days', days)}
          options={dayOptions}
        />
      </div>
      <div class={css['beside']}>
        <TextField {...form.at('from')} label={texts.from} type="time" required />
        <TextField {...form.at('to')} label={texts.to} type="time" required />
        <TextField {...form.at('breakFrom')} label={texts.breakFrom} type="time" isOptional />
        <TextField {...form.at('breakTo')} label={texts.breakTo} type="time" isOptional />
      </div>
    </Panel>
  );
}
