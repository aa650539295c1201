import { MomentField, NumberField, TextField } from '../../../form/fields.tsx';
import { idFor } from '../../../form/names.ts';
import { useYard } from '../../../frame/yard.tsx';
import { boats } from '../../../texts/boats.ts';
import { FormDialog } from '../dialog/form-dialog.tsx';
import { useRecordForm } from '../record/record-form.ts';
import { Rows } from '../rows/rows.tsx';
import { type Boat, type Refit, refits, type RefitValues } from './requests.ts';

const texts = boats.refit;
const hourMs = 3_600_000;

const blank = (): RefitValues => ({
  name: '',
  release: new Date(Math.floor(Date.now() / hourMs) * hourMs).toISOString(),
  promised: null,
  handovers: [],
  weight: 1,
});

const valuesOf = (refit: Refit | null): RefitValues =>
  refit === null
    ? blank()
    : {
        name: refit.name,
        release: refit.release,
        promised: refit.promised,
        handovers: refit.handovers,
        weight: refit.weight,
      };

/** A hand-over that was begun and left empty is none. */
const sentOf = (values: RefitValues): RefitValues => ({
  ...values,
  handovers: values.handovers.filter((at) => at !== '').toSorted(),
});

/** A refit of a boat: made where there is none yet, else changed. */
export function RefitDialog({
  boat,
  refit,
  all,
  onSaved,
  onClose,
}: {
  readonly boat: Boat;
  readonly refit: Refit | null;
  readonly all: readonly Boat[];
  readonly onSaved: () => void;
  readonly onClose: () => void;
}) {
  const { id: yardId, timeZone } = useYard();
  const form = useRecordForm<Refit, RefitValues>({
    draftKey: `${yardId} boat ${boat.id} refit ${refit?.id ?? ''}`,
    record: refit,
    valuesOf,
    making: {
      idOf: (values) => {
        const taken = all.flatMap((one) => one.refits.map(({ id }) => id));
        return idFor(`${boat.name} ${values.name}`, taken);
      },
      create: (sent) =>
        refits.create({ yardId, id: boat.id }, { ...sent, values: sentOf(sent.values) }),
    },
    change: (values, { id, revision }) => refits.update({ yardId, id }, revision, sentOf(values)),
    read: ({ id }) => refits.get({ yardId, id }),
    onSaved,
  });
  const { values, set, faultAt } = form;
  return (
    <FormDialog
      title={refit === null ? texts.title : boats.change(refit.name)}
      form={form}
      onClose={onClose}
    >
      <TextField {...form.at('name')} label={texts.name} required maxLength={120} />
      <MomentField
        label={texts.release}
        hint={texts.releaseHint}
        zone={timeZone}
        value={values.release === '' ? null : values.release}
        onValue={(release) => set('release', release ?? '')}
        fault={faultAt('release')}
      />
      <MomentField label={texts.promised} isOptional zone={timeZone} {...form.at('promised')} />
      <Rows<{ readonly at: string }>
        legend={texts.handovers}
        hint={texts.handoversHint}
        what={texts.handover}
        addLabel={texts.addHandover}
        rows={values.handovers.map((at) => ({ at }))}
        onRows={(rows) =>
          set(
            'handovers',
            rows.map(({ at }) => at),
          )
        }
        blank={() => ({ at: '' })}
        fault={faultAt('handovers')}
      >
        {(row, put, k) => (
          <MomentField
            label={texts.handoverAt}
            zone={timeZone}
            value={row.at === '' ? null : row.at}
            onValue={(at) => put({ at: at ?? '' })}
            fault={faultAt(`handovers[${String(k)}]`)}
          />
        )}
      </Rows>
      <NumberField
        label={texts.weight}
        hint={texts.weightHint}
        min={1}
        max={1000}
        step={1}
        required
        value={Number.isNaN(values.weight) ? null : values.weight}
        onValue={(weight) => set('weight', weight ?? Number.NaN)}
        fault={faultAt('weight')}
      />
    </FormDialog>
  );
}
