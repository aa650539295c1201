import { CheckField, ChoiceField, NumberField } from '../../../form/fields.tsx';
import { procedures } from '../../../texts/procedures.ts';
import { Rows } from '../rows/rows.tsx';
import page from '../set-up.module.css';
import { OptionalChoice } from '../lists/optional-choice.tsx';
import type { Step } from './procedure-values.ts';
import { QuantityFields } from './quantity-fields.tsx';
import type { OfStep } from './of-step.ts';
import { Whole } from './whole.tsx';

const texts = procedures.step;

type Preparation = Step['prepares'][number];
const preparations = Object.keys(procedures.preparation) as Preparation['kind'][];

/** What a step lays and weighs, or what it makes ready for the next one. */
export function MixFields(of: OfStep) {
  const { step, put, fault, lists } = of;
  return (
    <>
      <div class={page['cols']}>
        <OptionalChoice
          label={texts.material}
          none={texts.noMaterial}
          value={step.material}
          options={lists.materials}
          fault={fault('.material')}
          onValue={(material) =>
            put(material === null ? { material, quantity: null, oneBatch: false } : { material })
          }
        />
        {step.material !== null && (
          <ChoiceField
            label={texts.bonding}
            value={step.bonding}
            fault={fault('.bonding')}
            onValue={(text) => put({ bonding: text === 'cosmetic' ? 'cosmetic' : 'structural' })}
            options={(['structural', 'cosmetic'] as const).map((one) => ({
              value: one,
              label: texts.bondings[one],
            }))}
          />
        )}
      </div>
      {step.material !== null && <QuantityFields {...of} />}
      {step.quantity !== null && (
        <CheckField
          label={texts.oneBatch}
          value={step.oneBatch}
          onValue={(oneBatch) => put({ oneBatch })}
        />
      )}
      {step.material === null && (
        <Rows<Preparation>
          legend={texts.prepares}
          what={texts.preparation}
          addLabel={texts.addPreparation}
          rows={step.prepares}
          onRows={(prepares) => put({ prepares: [...prepares] })}
          blank={() => ({ kind: 'wipe', grit: null, mm: null, passes: 1 })}
          fault={fault('.prepares')}
        >
          {(row, change, k) => (
            <>
              <ChoiceField
                label={texts.preparationKind}
                value={row.kind}
                fault={fault(`.prepares[${String(k)}].kind`)}
                onValue={(text) => {
                  const kind = preparations.find((one) => one === text) ?? 'wipe';
                  change(kind === 'abrade' ? { kind, grit: 80 } : { kind, grit: null, mm: null });
                }}
                options={preparations.map((one) => ({
                  value: one,
                  label: procedures.preparation[one],
                }))}
              />
              {row.kind === 'abrade' && (
                <>
                  <Whole
                    label={texts.grit}
                    min={16}
                    max={3000}
                    value={row.grit ?? Number.NaN}
                    onValue={(grit) => change({ grit })}
                    fault={fault(`.prepares[${String(k)}].grit`)}
                  />
                  <NumberField
                    label={texts.depth}
                    hint={texts.depthHint}
                    unit={texts.mm}
                    isOptional
                    value={row.mm}
                    onValue={(mm) => change({ mm })}
                    fault={fault(`.prepares[${String(k)}].mm`)}
                  />
                </>
              )}
              <Whole
                label={texts.passes}
                min={1}
                max={20}
                value={row.passes}
                onValue={(passes) => change({ passes })}
                fault={fault(`.prepares[${String(k)}].passes`)}
              />
            </>
          )}
        </Rows>
      )}
    </>
  );
}
