import type { Schema } from '../../../api/client.ts';
import { ChoiceField, QuantityField, TextField } from '../../../form/fields.tsx';
import { useYard } from '../../../frame/yard.tsx';
import { Panel } from '../../../looks/looks.tsx';
import { spaces } from '../../../texts/set-up-spaces.ts';
import { setUp } from '../../../texts/set-up.ts';
import { DaysField, weekdays } from '../rows/days-field.tsx';
import { Needed, NeededQuantity } from '../rows/numbers.tsx';
import { Rows } from '../rows/rows.tsx';
import css from '../set-up.module.css';
import type { SpaceForm } from './collection.ts';

const texts = spaces.warmth;
type Climate = Schema<'Space'>['climate'];

/** What a space becomes where somebody chooses the other kind. */
const beginnings: Readonly<Record<Climate['kind'], Climate>> = {
  heated: {
    kind: 'heated',
    setPoints: [{ weekdays: [...weekdays], from: '06:00', celsius: 18 }],
    lagHours: 0,
  },
  outdoors: { kind: 'outdoors', lagHours: 4, warmerBy: 2 },
};

export function Warmth({ form }: { readonly form: SpaceForm }) {
  const { id } = useYard();
  const { values, set, faultAt } = form;
  const { climate } = values;
  const needsOutdoor = climate.kind === 'outdoors' && faultAt('climate') !== undefined;
  return (
    <Panel title={texts.title}>
      <ChoiceField
        label={texts.kind}
        value={climate.kind}
        onValue={(kind) => set('climate', beginnings[kind === 'heated' ? 'heated' : 'outdoors'])}
        options={(['heated', 'outdoors'] as const).map((value) => ({
          value,
          label: texts.kinds[value],
        }))}
        fault={faultAt('climate')}
      />
      {needsOutdoor && (
        <p>
          {texts.needsOutdoor} <a href={`/yards/${id}/set-up/outdoor`}>{texts.toOutdoor}</a>
        </p>
      )}
      {climate.kind === 'heated' && (
        <SetPoints climate={climate} onClimate={(now) => set('climate', now)} faultAt={faultAt} />
      )}
      <div class={css['cols']}>
        <Needed
          label={texts.lag}
          hint={texts.lagHint}
          unit={texts.hours}
          min={0}
          max={240}
          value={climate.lagHours}
          onValue={(lagHours) => set('climate', { ...climate, lagHours })}
          fault={faultAt('climate.lagHours')}
        />
        {climate.kind === 'outdoors' && (
          <NeededQuantity
            kind="degrees"
            label={texts.warmerBy}
            value={climate.warmerBy}
            onValue={(warmerBy) => set('climate', { ...climate, warmerBy })}
            fault={faultAt('climate.warmerBy')}
          />
        )}
        <QuantityField
          {...form.at('bandC')}
          kind="degrees"
          label={texts.band}
          hint={texts.bandHint}
          isOptional
        />
      </div>
    </Panel>
  );
}

type Heated = Extract<Climate, { kind: 'heated' }>;

function SetPoints({
  climate,
  onClimate,
  faultAt,
}: {
  readonly climate: Heated;
  readonly onClimate: (climate: Heated) => void;
  readonly faultAt: (path: string) => string | undefined;
}) {
  return (
    <Rows
      legend={texts.setPoints}
      hint={texts.setPointHint}
      what={texts.setPoint}
      addLabel={texts.addSetPoint}
      rows={climate.setPoints}
      onRows={(rows) => onClimate({ ...climate, setPoints: [...rows] })}
      least={1}
      fault={faultAt('climate.setPoints')}
      blank={() => ({ weekdays: [...weekdays], from: '19:00', celsius: 15 })}
    >
      {(row, change, at) => {
        const path = `climate.setPoints[${String(at)}]`;
        return (
          <>
            <div class={css['whole']}>
              <DaysField
                label={setUp.hours.days}
                days={row.weekdays}
                onDays={(days) => change({ weekdays: days })}
              />
            </div>
            <TextField
              type="time"
              label={texts.from}
              required
              value={row.from}
              onValue={(from) => change({ from })}
              fault={faultAt(path) ?? faultAt(`${path}.from`)}
            />
            <NeededQuantity
              kind="temperature"
              label={texts.temperature}
              value={row.celsius}
              onValue={(celsius) => change({ celsius })}
              fault={faultAt(`${path}.celsius`)}
            />
          </>
        );
      }}
    </Rows>
  );
}
