import { CheckField, ChoiceField, SeveralField } from '../../../form/fields.tsx';
import { materials } from '../../../texts/materials.ts';
import { procedures } from '../../../texts/procedures.ts';
import { MoneyField, Needed } from '../rows/numbers.tsx';
import { Rows } from '../rows/rows.tsx';
import page from '../set-up.module.css';
import { OptionalChoice } from '../lists/optional-choice.tsx';
import type { Moment, Step } from './procedure-values.ts';
import type { OfStep } from './of-step.ts';
import { Whole } from './whole.tsx';

const texts = procedures.step;

type Consumption = Step['consumes'][number];
const amounts = [
  ['fixed', texts.stockFixed],
  ['perM2', texts.stockPerM2],
  ['perEdgeM', texts.stockPerEdge],
  ['perJointM', texts.stockPerJoint],
] as const;

/** Dust on what it leaves, stocks, doors, slots and money. */
export function MoreFields(of: OfStep & { readonly others: readonly Step[] }) {
  const { step, put, fault, lists } = of;
  const { barrier } = step;
  return (
    <>
      <SensitiveFields {...of} />
      {(lists.stocks.length > 0 || step.consumes.length > 0) && <StockFields {...of} />}
      <div class={page['cols']}>
        {(lists.barriers.length > 0 || barrier !== null) && (
          <OptionalChoice
            label={texts.barrier}
            none={texts.noBarrier}
            value={barrier?.barrier ?? null}
            options={lists.barriers}
            fault={fault('.barrier') ?? fault('.barrier.barrier')}
            onValue={(id) =>
              put({
                barrier: id === null ? null : { barrier: id, closes: barrier?.closes ?? true },
              })
            }
          />
        )}
        {(lists.slotLists.length > 0 || step.slots !== null) && (
          <OptionalChoice
            label={texts.slots}
            none={texts.noSlots}
            value={step.slots}
            options={lists.slotLists}
            fault={fault('.slots')}
            onValue={(slots) => put({ slots })}
          />
        )}
        <MoneyField
          label={texts.price}
          value={step.price}
          onValue={(price) => put({ price })}
          fault={fault('.price')}
        />
      </div>
      {barrier !== null && (
        <CheckField
          label={texts.closes}
          value={barrier.closes}
          onValue={(closes) => put({ barrier: { ...barrier, closes } })}
        />
      )}
    </>
  );
}

type Milestone = Extract<Moment, { kind: 'milestone' }>['milestone'];
const milestones = Object.keys(materials.milestones) as Milestone[];

function sensitiveOf(text: string): Moment | null {
  if (text === 'after') return { kind: 'after', minutes: 240 };
  const milestone = milestones.find((one) => one === text);
  return milestone === undefined ? null : { kind: 'milestone', milestone };
}

function SensitiveFields({
  step,
  put,
  fault,
  others,
}: OfStep & { readonly others: readonly Step[] }) {
  const { sensitiveUntil: until } = step;
  const isFilm = step.material !== null;
  return (
    <>
      <div class={page['cols']}>
        <ChoiceField
          label={texts.sensitive}
          value={until === null ? 'none' : until.kind === 'after' ? 'after' : until.milestone}
          fault={fault('.sensitiveUntil') ?? fault('.sensitiveUntil.milestone')}
          onValue={(text) => put({ sensitiveUntil: sensitiveOf(text) })}
          options={[
            { value: 'none', label: texts.sensitiveOf.none },
            { value: 'after', label: texts.sensitiveOf.after },
            ...(isFilm
              ? milestones.map((one) => ({
                  value: one,
                  label: procedures.wait.filmBefore(materials.milestones[one].toLowerCase()),
                }))
              : []),
          ]}
        />
        {until?.kind === 'after' && (
          <Whole
            label={texts.minutesFor}
            unit={texts.minutes}
            min={0}
            value={until.minutes}
            onValue={(minutes) => put({ sensitiveUntil: { kind: 'after', minutes } })}
            fault={fault('.sensitiveUntil.minutes')}
          />
        )}
      </div>
      {(until !== null || isFilm) && others.length > 0 && (
        <SeveralField
          label={texts.covered}
          values={step.coveredBy}
          onValues={(coveredBy) => put({ coveredBy: [...coveredBy] })}
          options={others.map(({ id, name }) => ({ value: id, label: name }))}
        />
      )}
    </>
  );
}

function StockFields({ step, put, fault, lists }: OfStep) {
  return (
    <Rows<Consumption>
      legend={texts.consumes}
      what={texts.consumption}
      addLabel={texts.addConsumption}
      rows={step.consumes}
      onRows={(consumes) => put({ consumes: [...consumes] })}
      blank={() => ({
        stock: lists.stocks[0]?.value ?? '',
        fixed: 0,
        perM2: 0,
        perEdgeM: 0,
        perJointM: 0,
      })}
      fault={fault('.consumes')}
    >
      {(row, change, k) => (
        <>
          <OptionalChoice
            label={texts.stock}
            none={texts.noMaterial}
            value={row.stock === '' ? null : row.stock}
            options={lists.stocks}
            fault={fault(`.consumes[${String(k)}].stock`)}
            onValue={(stock) => change({ stock: stock ?? '' })}
          />
          {amounts.map(([field, label]) => (
            <Needed
              key={field}
              label={label}
              min={0}
              value={row[field]}
              onValue={(amount) => change({ [field]: amount })}
              fault={fault(`.consumes[${String(k)}].${field}`)}
            />
          ))}
        </>
      )}
    </Rows>
  );
}
