import type { Schema } from '../../../api/client.ts';
import { ChoiceField, TextField } from '../../../form/fields.tsx';
import type { Form } from '../../../form/form.ts';
import { idFor } from '../../../form/names.ts';
import { units } from '../../../session/session.ts';
import { scaleOf } from '../../../show/units.ts';
import { office } from '../../../texts/set-up-office.ts';
import { Needed } from '../rows/numbers.tsx';
import { Rows } from '../rows/rows.tsx';

const texts = office.yard;
type Yard = Schema<'Yard'>;
const ofs = ['dewax', 'wash', 'abrade', 'extract', 'wipe', 'peel'] as const;

/** What is bought for preparation, by the area that is prepared. */
export function Consumables({
  form: { values, set, faultAt },
}: {
  readonly form: Form<Omit<Yard, 'id' | 'revision'>>;
}) {
  // So much for a square metre is less for a square foot.
  const { unit, factor } = scaleOf('area', units.value);
  const rows = values.consumables;
  return (
    <Rows
      legend={texts.consumables}
      hint={texts.consumablesHint}
      what={texts.consumable}
      addLabel={texts.addConsumable}
      rows={rows}
      onRows={(now) => set('consumables', [...now])}
      blank={(): Yard['consumables'][number] => ({
        id: idFor(
          texts.consumable,
          rows.map(({ id }) => id),
        ),
        name: '',
        unit: 'pcs',
        of: 'wipe',
        perM2: 1,
        source: '',
      })}
    >
      {(row, change, at) => {
        const path = `consumables[${String(at)}]`;
        return (
          <>
            <TextField
              label={texts.consumableName}
              required
              maxLength={120}
              value={row.name}
              onValue={(name) => change({ name })}
              fault={faultAt(`${path}.name`)}
            />
            <ChoiceField
              label={texts.consumableOf}
              value={row.of}
              onValue={(chosen) => {
                const of = ofs.find((one) => one === chosen);
                if (of !== undefined) change({ of });
              }}
              options={ofs.map((value) => ({ value, label: texts.ofs[value] }))}
            />
            <TextField
              label={texts.unit}
              required
              maxLength={20}
              value={row.unit}
              onValue={(counted) => change({ unit: counted })}
              fault={faultAt(`${path}.unit`)}
            />
            <Needed
              label={texts.perArea(unit)}
              unit={row.unit}
              min={0}
              value={Number((row.perM2 / factor).toPrecision(6))}
              onValue={(perShown) => change({ perM2: perShown * factor })}
              fault={faultAt(`${path}.perM2`)}
            />
            <TextField
              label={texts.source}
              required
              maxLength={300}
              value={row.source}
              onValue={(source) => change({ source })}
              fault={faultAt(`${path}.source`)}
            />
          </>
        );
      }}
    </Rows>
  );
}
