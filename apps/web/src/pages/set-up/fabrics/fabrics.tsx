import { useState } from 'preact/hooks';
import { api, asked, ifMatch, once, type Schema } from '../../../api/client.ts';
import { useResource } from '../../../api/resource.ts';
import { ChoiceField, TextField } from '../../../form/fields.tsx';
import type { Form } from '../../../form/form.ts';
import { useYard } from '../../../frame/yard.tsx';
import { number } from '../../../show/units.ts';
import { materials } from '../../../texts/materials.ts';
import { lists } from '../lists/lists.ts';
import { type Collection, without } from '../record/collection.ts';
import { RecordRoom } from '../record/record-list.tsx';
import type { RoomOf } from '../record/record-page.tsx';
import { Needed } from '../rows/numbers.tsx';
import css from '../set-up.module.css';

type Fabric = Schema<'Fabric'>;
type Values = Omit<Fabric, 'id' | 'revision'>;

const texts = materials.fabric;
const binders = Object.keys(texts.binders) as Values['binder'][];

const collection: Collection<Fabric, Values> = {
  subject: 'fabric',
  list: lists.fabrics,
  get: (path, signal) =>
    asked(api.GET('/api/v1/yards/{yardId}/fabrics/{id}', { params: { path }, signal })),
  create: ({ yardId, id }, values, key) =>
    asked(
      api.POST('/api/v1/yards/{yardId}/fabrics', {
        params: { path: { yardId } },
        headers: once(key),
        body: { id, ...values },
      }),
    ),
  update: (path, revision, values) =>
    asked(
      api.PATCH('/api/v1/yards/{yardId}/fabrics/{id}', {
        params: { path, header: ifMatch(revision) },
        body: values,
      }),
    ),
  remove: (path, revision) =>
    asked(
      api.DELETE('/api/v1/yards/{yardId}/fabrics/{id}', {
        params: { path, header: ifMatch(revision) },
      }),
    ),
  valuesOf: (fabric) => without(fabric, 'id', 'revision'),
  blank: () => ({
    name: '',
    gramsPerM2: Number.NaN,
    resinRatio: Number.NaN,
    binder: 'none',
    source: '',
  }),
};

function Fields({ form, record }: { readonly form: Form<Values>; readonly record: Fabric | null }) {
  const { values, set, faultAt } = form;
  const grams = values.gramsPerM2 * values.resinRatio;
  return (
    <>
      {record === null && <FromCatalogue form={form} />}
      <div class={css['cols']}>
        <Needed
          label={texts.weight}
          unit={texts.weightUnit}
          min={0}
          value={values.gramsPerM2}
          onValue={(value) => set('gramsPerM2', value)}
          fault={faultAt('gramsPerM2')}
        />
        <Needed
          label={texts.ratio}
          hint={texts.ratioHint}
          unit={texts.ratioUnit}
          min={0}
          value={values.resinRatio}
          onValue={(value) => set('resinRatio', value)}
          fault={faultAt('resinRatio')}
        />
        <ChoiceField
          label={texts.binder}
          fault={faultAt('binder')}
          value={values.binder}
          onValue={(text) => set('binder', binders.find((binder) => binder === text) ?? 'none')}
          options={binders.map((binder) => ({ value: binder, label: texts.binders[binder] }))}
        />
      </div>
      {Number.isFinite(grams) && <p class={css['soft']}>{texts.resin(number(grams, 0))}</p>}
      <TextField
        {...form.at('source')}
        label={materials.source}
        hint={materials.sourceHint}
        required
        maxLength={300}
      />
    </>
  );
}

/** Fills the fields with what the catalogue knows; nothing is saved by it. */
function FromCatalogue({ form }: { readonly form: Form<Values> }) {
  const { id: yardId } = useYard();
  const [chosen, setChosen] = useState('');
  const { data } = useResource('catalogue of fabrics', (signal) =>
    asked(
      api.GET('/api/v1/yards/{yardId}/catalogue/fabrics', { params: { path: { yardId } }, signal }),
    ),
  );
  const found = data?.items.find(({ id }) => id === chosen);
  const take = (id: string): void => {
    setChosen(id);
    const fabric = data?.items.find((one) => one.id === id);
    if (fabric === undefined) return;
    const { name, gramsPerM2, resinRatio, binder, source } = fabric;
    form.set('name', name);
    form.set('gramsPerM2', gramsPerM2);
    form.set('resinRatio', resinRatio);
    form.set('binder', binder);
    form.set('source', source);
  };
  return (
    <ChoiceField
      label={texts.from}
      hint={
        found === undefined
          ? texts.fromHint
          : texts.published(number(found.published.low), number(found.published.high))
      }
      value={chosen}
      onValue={take}
      options={[
        { value: '', label: texts.blank },
        ...(data?.items ?? []).map(({ id, name }) => ({ value: id, label: name })),
      ]}
    />
  );
}

const room: RoomOf<Fabric, Values> = {
  room: 'fabrics',
  collection,
  newTitle: materials.newFabric,
  Line: ({ record }) => <>{texts.line(number(record.gramsPerM2), number(record.resinRatio))}</>,
  Fields,
};

/** Reinforcements: what a ply weighs and how much resin it takes. */
export default function Fabrics() {
  return <RecordRoom of={room} />;
}
