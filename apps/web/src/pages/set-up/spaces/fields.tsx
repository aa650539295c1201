import { CheckField, SeveralField } from '../../../form/fields.tsx';
import { Notice, Panel } from '../../../looks/looks.tsx';
import { spaces } from '../../../texts/set-up-spaces.ts';
import { useList } from '../lists/lists.ts';
import { Needed } from '../rows/numbers.tsx';
import { Absences, UsableHours } from '../rows/usable.tsx';
import css from '../set-up.module.css';
import { Changes } from './changes.tsx';
import { itself, type Space, type SpaceForm } from './collection.ts';
import { Damp } from './damp.tsx';
import { Skin } from './skin.tsx';
import { Warmth } from './warmth.tsx';

/** All of a space but its name. */
export function SpaceFields({
  form,
  record,
}: {
  readonly form: SpaceForm;
  readonly record: Space | null;
}) {
  return (
    <>
      <Place form={form} />
      <Dust form={form} id={record?.id ?? itself} />
      <Warmth form={form} />
      <Damp form={form} />
      <Skin form={form} />
      <Changes form={form} />
    </>
  );
}

function Place({ form }: { readonly form: SpaceForm }) {
  const texts = spaces.place;
  const { values, set, faultAt } = form;
  return (
    <Panel title={texts.title}>
      <div class={css['cols']}>
        <Needed {...form.at('room')} label={texts.room} min={1} max={1000} step={1} />
        <Needed
          {...form.at('workPercent')}
          label={texts.workPercent}
          hint={texts.workHint}
          unit="%"
          min={10}
          max={400}
          step={1}
        />
      </div>
      <CheckField
        label={texts.enclosed}
        value={values.enclosed}
        onValue={(enclosed) => set('enclosed', enclosed)}
      />
      {values.enclosed && <Notice tone="heed">{spaces.enclosedCaution}</Notice>}
      <UsableHours
        hours={values.hours}
        onHours={(hours) => set('hours', hours)}
        faultAt={faultAt}
      />
      <Absences
        legend={texts.taken}
        what={texts.takenWhat}
        addLabel={texts.addTaken}
        path="taken"
        absences={values.taken}
        onAbsences={(taken) => set('taken', taken)}
        faultAt={faultAt}
      />
    </Panel>
  );
}

function Dust({ form, id }: { readonly form: SpaceForm; readonly id: string }) {
  const texts = spaces.dust;
  const { data } = useList('spaces');
  const { values, set, faultAt } = form;
  const others = (data ?? []).filter((space) => space.id !== id);
  const here = { value: id, label: values.name === '' ? texts.here : texts.itself(values.name) };
  return (
    <Panel title={texts.title}>
      <SeveralField
        label={texts.reaches}
        values={values.dustReaches}
        onValues={(reached) => set('dustReaches', [...reached])}
        options={[here, ...others.map(({ id: value, name }) => ({ value, label: name }))]}
      />
      {faultAt('dustReaches') !== undefined && <p class={css['fault']}>{faultAt('dustReaches')}</p>}
      <Needed
        {...form.at('settlingMinutes')}
        label={texts.settling}
        unit={texts.minutes}
        min={0}
        max={1440}
        step={1}
      />
    </Panel>
  );
}
