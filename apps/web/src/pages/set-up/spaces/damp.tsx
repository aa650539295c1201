import { ChoiceField } from '../../../form/fields.tsx';
import { Panel } from '../../../looks/looks.tsx';
import { spaces } from '../../../texts/set-up-spaces.ts';
import { Needed } from '../rows/numbers.tsx';
import type { SpaceForm } from './collection.ts';

const texts = spaces.damp;
const kinds = ['unknown', 'outdoors', 'held'] as const;
const beginnings = {
  unknown: null,
  outdoors: { kind: 'outdoors', addsHPa: 0.5 },
  held: { kind: 'held', percent: 60 },
} as const;

/** What the moisture of the air follows. */
export function Damp({ form }: { readonly form: SpaceForm }) {
  const { values, set, faultAt } = form;
  const { humidity } = values;
  return (
    <Panel title={texts.title}>
      <ChoiceField
        label={texts.kind}
        value={humidity?.kind ?? 'unknown'}
        onValue={(chosen) => {
          const kind = kinds.find((one) => one === chosen) ?? 'unknown';
          set('humidity', beginnings[kind]);
        }}
        options={kinds.map((value) => ({ value, label: texts.kinds[value] }))}
        fault={faultAt('humidity')}
      />
      {humidity?.kind === 'outdoors' && (
        <Needed
          label={texts.adds}
          hint={texts.addsHint}
          unit="hPa"
          min={0}
          max={20}
          value={humidity.addsHPa}
          onValue={(addsHPa) => set('humidity', { kind: 'outdoors', addsHPa })}
          fault={faultAt('humidity.addsHPa')}
        />
      )}
      {humidity?.kind === 'held' && (
        <Needed
          label={texts.percent}
          unit="%"
          min={1}
          max={100}
          value={humidity.percent}
          onValue={(percent) => set('humidity', { kind: 'held', percent })}
          fault={faultAt('humidity.percent')}
        />
      )}
    </Panel>
  );
}
