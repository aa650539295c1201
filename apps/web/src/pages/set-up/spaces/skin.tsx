import { ChoiceField } from '../../../form/fields.tsx';
import { Panel } from '../../../looks/looks.tsx';
import { spaces } from '../../../texts/set-up-spaces.ts';
import { Needed } from '../rows/numbers.tsx';
import css from '../set-up.module.css';
import type { SpaceForm } from './collection.ts';

const texts = spaces.skin;

/** What surfaces are as warm as: the film lies on them, not in the air. */
export function Skin({ form }: { readonly form: SpaceForm }) {
  const { values, set, faultAt } = form;
  const { skin } = values;
  return (
    <Panel title={texts.title}>
      <ChoiceField
        label={texts.kind}
        value={skin === null ? 'air' : 'between'}
        onValue={(kind) => set('skin', kind === 'air' ? null : { outdoorShare: 0.3, lagHours: 1 })}
        options={(['air', 'between'] as const).map((value) => ({
          value,
          label: texts.kinds[value],
        }))}
        fault={faultAt('skin')}
      />
      {skin !== null && (
        <div class={css['cols']}>
          <Needed
            label={texts.share}
            hint={texts.shareHint}
            unit="%"
            min={0}
            max={100}
            value={Math.round(skin.outdoorShare * 1000) / 10}
            onValue={(percent) => set('skin', { ...skin, outdoorShare: percent / 100 })}
            fault={faultAt('skin.outdoorShare')}
          />
          <Needed
            label={texts.lag}
            unit={spaces.warmth.hours}
            min={0}
            max={240}
            value={skin.lagHours}
            onValue={(lagHours) => set('skin', { ...skin, lagHours })}
            fault={faultAt('skin.lagHours')}
          />
        </div>
      )}
    </Panel>
  );
}
