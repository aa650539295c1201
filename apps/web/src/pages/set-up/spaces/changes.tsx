import type { Schema } from '../../../api/client.ts';
import { CheckField, ChoiceField, TextField } from '../../../form/fields.tsx';
import { idFor } from '../../../form/names.ts';
import { useYard } from '../../../frame/yard.tsx';
import { Notice, Panel } from '../../../looks/looks.tsx';
import { spaces } from '../../../texts/set-up-spaces.ts';
import { MoneyField, Needed, NeededMoment, NeededQuantity } from '../rows/numbers.tsx';
import { Rows } from '../rows/rows.tsx';
import { tomorrow } from '../rows/tomorrow.ts';
import css from '../set-up.module.css';
import type { SpaceForm } from './collection.ts';

const texts = spaces.changes;
type Change = Schema<'Space'>['changes'][number];
type Kind = Change['kind'];
const kinds = ['heater', 'tent', 'dehumidifier'] as const satisfies readonly Kind[];

const nothing = { celsius: null, lagHours: null, warmerBy: null, percent: null, unvented: false };
/** What each kind changes, and common practice to begin with. */
const beginnings: Readonly<Record<Kind, typeof nothing | Partial<Change>>> = {
  heater: { ...nothing, celsius: 18 },
  tent: { ...nothing, lagHours: 6, warmerBy: 8 },
  dehumidifier: { ...nothing, percent: 60 },
};

/** What makes a space warmer or drier for a time. */
export function Changes({ form }: { readonly form: SpaceForm }) {
  const { timeZone } = useYard();
  const { values, set, faultAt } = form;
  return (
    <Panel title={texts.title}>
      <Rows
        legend={texts.title}
        isTitled
        hint={texts.hint}
        what={texts.what}
        addLabel={texts.add}
        rows={values.changes}
        onRows={(rows) => set('changes', [...rows])}
        blank={(): Change => ({
          ...nothing,
          id: idFor(
            texts.what,
            values.changes.map(({ id }) => id),
          ),
          name: '',
          kind: 'heater',
          celsius: 18,
          from: tomorrow(timeZone, '08:00'),
          to: tomorrow(timeZone, '18:00', 14),
          watts: 0,
          costPerDay: 0,
        })}
      >
        {(row, change, at) => (
          <OneChange
            row={row}
            change={change}
            faultAt={(field) => faultAt(`changes[${String(at)}]${field}`)}
          />
        )}
      </Rows>
    </Panel>
  );
}

function OneChange({
  row,
  change,
  faultAt,
}: {
  readonly row: Change;
  readonly change: (some: Partial<Change>) => void;
  readonly faultAt: (field: string) => string | undefined;
}) {
  return (
    <>
      <TextField
        label={texts.name}
        required
        maxLength={120}
        value={row.name}
        onValue={(name) => change({ name })}
        fault={faultAt('.name') ?? faultAt('')}
      />
      <ChoiceField
        label={texts.kind}
        value={row.kind}
        onValue={(chosen) => {
          const kind = kinds.find((one) => one === chosen);
          if (kind !== undefined) change({ ...beginnings[kind], kind });
        }}
        options={kinds.map((value) => ({ value, label: texts.kinds[value] }))}
      />
      <NeededMoment
        label={texts.from}
        value={row.from}
        onValue={(from) => change({ from })}
        fault={faultAt('.from')}
      />
      <NeededMoment
        label={texts.to}
        value={row.to}
        onValue={(to) => change({ to })}
        fault={faultAt('.to')}
      />
      <Effect row={row} change={change} faultAt={faultAt} />
      <Needed
        label={texts.watts}
        unit="W"
        min={0}
        step={1}
        value={row.watts}
        onValue={(watts) => change({ watts })}
        fault={faultAt('.watts')}
      />
      <MoneyField
        label={texts.cost}
        value={row.costPerDay}
        onValue={(costPerDay) => change({ costPerDay })}
        fault={faultAt('.costPerDay')}
      />
      {row.kind === 'heater' && (
        <div class={css['whole']}>
          <CheckField
            label={texts.unvented}
            value={row.unvented}
            onValue={(unvented) => change({ unvented })}
          />
          {row.unvented && <Notice tone="harm">{texts.unventedCaution}</Notice>}
        </div>
      )}
    </>
  );
}

/** What it makes of the climate; each kind has its own numbers. */
function Effect({
  row,
  change,
  faultAt,
}: {
  readonly row: Change;
  readonly change: (some: Partial<Change>) => void;
  readonly faultAt: (field: string) => string | undefined;
}) {
  if (row.kind === 'heater') {
    return (
      <NeededQuantity
        kind="temperature"
        label={texts.celsius}
        value={row.celsius ?? Number.NaN}
        onValue={(celsius) => change({ celsius })}
        fault={faultAt('.celsius')}
      />
    );
  }
  if (row.kind === 'dehumidifier') {
    return (
      <Needed
        label={texts.percent}
        unit="%"
        min={1}
        max={100}
        value={row.percent ?? Number.NaN}
        onValue={(percent) => change({ percent })}
        fault={faultAt('.percent')}
      />
    );
  }
  return (
    <>
      <Needed
        label={texts.lag}
        unit={spaces.warmth.hours}
        min={0}
        max={240}
        value={row.lagHours ?? Number.NaN}
        onValue={(lagHours) => change({ lagHours })}
        fault={faultAt('.lagHours')}
      />
      <NeededQuantity
        kind="degrees"
        label={texts.warmerBy}
        value={row.warmerBy ?? Number.NaN}
        onValue={(warmerBy) => change({ warmerBy })}
        fault={faultAt('.warmerBy')}
      />
    </>
  );
}
