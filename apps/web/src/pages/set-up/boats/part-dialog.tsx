import {
  CheckField,
  ChoiceField,
  MomentField,
  NumberField,
  TextField,
} from '../../../form/fields.tsx';
import { idFor } from '../../../form/names.ts';
import { useYard } from '../../../frame/yard.tsx';
import { ButtonLink, Notice } from '../../../looks/looks.tsx';
import { boats } from '../../../texts/boats.ts';
import { FormDialog } from '../dialog/form-dialog.tsx';
import { optionsOf, useList } from '../lists/lists.ts';
import { OptionalChoice } from '../lists/optional-choice.tsx';
import { useRecordForm } from '../record/record-form.ts';
import { NeededQuantity } from '../rows/numbers.tsx';
import { Rows } from '../rows/rows.tsx';
import page from '../set-up.module.css';
import { type Boat, type Part, parts, type PartValues, type Refit } from './requests.ts';

const texts = boats.part;

type Layer = PartValues['layers'][number];
const bases = Object.keys(texts.bases) as Layer['base'][];
const surfaces = Object.keys(texts.surfaces) as Layer['surface'][];

const blankLayer: Layer = {
  base: 'polyester',
  material: null,
  surface: 'sealed',
  waxed: false,
  laidAt: null,
  mm: null,
};

/** A part of a refit: made where there is none yet, else changed. */
export function PartDialog({
  boat,
  refit,
  part,
  all,
  onSaved,
  onClose,
}: {
  readonly boat: Boat;
  readonly refit: Refit;
  readonly part: Part | null;
  readonly all: readonly Boat[];
  readonly onSaved: () => void;
  readonly onClose: () => void;
}) {
  const { id: yardId } = useYard();
  const spaces = useList('spaces');
  const valuesOf = (record: Part | null): PartValues => {
    if (record === null) {
      const space = refit.parts.at(-1)?.space ?? '';
      return { name: '', space, areaM2: Number.NaN, edgeM: 0, jointM: 0, layers: [] };
    }
    const { name, space, areaM2, edgeM, jointM, layers } = record;
    return { name, space, areaM2, edgeM, jointM, layers };
  };
  const form = useRecordForm<Part, PartValues>({
    draftKey: `${yardId} refit ${refit.id} part ${part?.id ?? ''}`,
    record: part,
    valuesOf,
    making: {
      idOf: (values) => {
        const taken = all.flatMap((one) =>
          one.refits.flatMap((of) => of.parts.map(({ id }) => id)),
        );
        return idFor(`${boat.name} ${values.name}`, taken);
      },
      create: (sent) => parts.create({ yardId, id: refit.id }, sent),
    },
    change: (values, { id, revision }) => parts.update({ yardId, id }, revision, values),
    read: ({ id }) => parts.get({ yardId, id }),
    onSaved,
  });
  const { values, set, faultAt } = form;
  const sizes = [
    ['areaM2', 'area', texts.area],
    ['edgeM', 'length', texts.edge],
    ['jointM', 'length', texts.joint],
  ] as const;
  return (
    <FormDialog
      title={part === null ? texts.title : boats.change(part.name)}
      form={form}
      onClose={onClose}
    >
      {spaces.data?.length === 0 && (
        <Notice tone="heed">
          {texts.noSpace}
          <ButtonLink to={`/yards/${yardId}/set-up/spaces`}>{texts.toSpaces}</ButtonLink>
        </Notice>
      )}
      <TextField {...form.at('name')} label={texts.name} required maxLength={120} />
      <OptionalChoice
        label={texts.space}
        hint={texts.spaceHint}
        none={texts.noMaterial}
        value={values.space === '' ? null : values.space}
        options={optionsOf(spaces.data)}
        fault={faultAt('space')}
        onValue={(space) => set('space', space ?? '')}
      />
      <div class={page['cols']}>
        {sizes.map(([field, kind, label]) => (
          <NeededQuantity
            key={field}
            kind={kind}
            label={label}
            value={values[field]}
            onValue={(value) => set(field, value)}
            fault={faultAt(field)}
          />
        ))}
      </div>
      {part !== null && part.jobs.length > 0 && <p class={page['soft']}>{texts.resized}</p>}
      <LayerFields
        layers={values.layers}
        onLayers={(layers) => set('layers', [...layers])}
        faultAt={faultAt}
      />
    </FormDialog>
  );
}

function LayerFields({
  layers,
  onLayers,
  faultAt,
}: {
  readonly layers: readonly Layer[];
  readonly onLayers: (layers: readonly Layer[]) => void;
  readonly faultAt: (path: string) => string | undefined;
}) {
  const { timeZone } = useYard();
  const materials = useList('materials');
  return (
    <Rows<Layer>
      legend={texts.layers}
      hint={texts.layersHint}
      what={texts.layer}
      addLabel={texts.addLayer}
      rows={layers}
      onRows={onLayers}
      blank={() => blankLayer}
      fault={faultAt('layers')}
    >
      {(layer, put, k) => {
        const fault = (field: keyof Layer): string | undefined =>
          faultAt(`layers[${String(k)}].${field}`);
        return (
          <>
            <ChoiceField
              label={texts.base}
              value={layer.base}
              fault={fault('base')}
              onValue={(text) => put({ base: bases.find((one) => one === text) ?? 'polyester' })}
              options={bases.map((one) => ({ value: one, label: texts.bases[one] }))}
            />
            <OptionalChoice
              label={texts.material}
              none={texts.noMaterial}
              value={layer.material}
              options={optionsOf(materials.data)}
              fault={fault('material')}
              onValue={(material) => put({ material })}
            />
            <ChoiceField
              label={texts.surface}
              value={layer.surface}
              fault={fault('surface')}
              onValue={(text) => put({ surface: surfaces.find((one) => one === text) ?? 'bare' })}
              options={surfaces.map((one) => ({ value: one, label: texts.surfaces[one] }))}
            />
            <NumberField
              label={texts.mm}
              unit={texts.mmUnit}
              isOptional
              min={0}
              value={layer.mm}
              fault={fault('mm')}
              onValue={(mm) => put({ mm })}
            />
            <MomentField
              label={texts.laidAt}
              hint={texts.laidAtHint}
              isOptional
              zone={timeZone}
              value={layer.laidAt}
              fault={fault('laidAt')}
              onValue={(laidAt) => put({ laidAt })}
            />
            <CheckField
              label={texts.waxed}
              value={layer.waxed}
              onValue={(waxed) => put({ waxed })}
            />
          </>
        );
      }}
    </Rows>
  );
}
