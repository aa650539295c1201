import type { Schema } from '../../../api/client.ts';
import { ChoiceField, NumberField } from '../../../form/fields.tsx';
import { procedures } from '../../../texts/procedures.ts';
import { Needed } from '../rows/numbers.tsx';
import { Rows } from '../rows/rows.tsx';
import page from '../set-up.module.css';
import { OptionalChoice } from '../lists/optional-choice.tsx';
import type { OfStep } from './of-step.ts';
import { Whole } from './whole.tsx';

const texts = procedures.step;

type Quantity = Schema<'Quantity'>;
type Kind = Quantity['kind'];
type Of<K extends Kind> = Extract<Quantity, { kind: K }>;

const kinds = [
  'laminate',
  'tabbing',
  'coat',
  'fill',
  'fillet',
  'glue-line',
] as const satisfies readonly Kind[];

/** Common practice for what stays in cups, rollers and brushes. */
const usualWaste = 10;

function blank(kind: Kind, wastePercent: number, fabric: string): Quantity {
  switch (kind) {
    case 'laminate':
      return { kind, plies: [{ fabric, layers: 1 }], wastePercent };
    case 'tabbing':
      return { kind, plies: [{ fabric, widthMm: 100 }], wastePercent };
    case 'coat':
      return { kind, gramsPerM2: null, coats: 1, wastePercent };
    case 'fill':
      return { kind, mm: 1, wastePercent };
    case 'fillet':
      return { kind, radiusMm: 15, sides: 1, wastePercent };
    case 'glue-line':
      return { kind, widthMm: 20, gramsPerM2: null, wastePercent };
  }
}

interface OfQuantity<Q extends Quantity> extends Omit<OfStep, 'step' | 'put'> {
  readonly quantity: Q;
  readonly put: (quantity: Q) => void;
}

/** How much is mixed, by the sizes of the part. */
export function QuantityFields({ step, put, fault, lists }: OfStep) {
  const { quantity } = step;
  const at = (path: string): string | undefined => fault(`.quantity${path}`);
  const shared = { fault: at, lists, put: (changed: Quantity) => put({ quantity: changed }) };
  return (
    <>
      <div class={page['cols']}>
        <ChoiceField
          label={texts.quantity}
          fault={at('') ?? at('.kind')}
          value={quantity?.kind ?? 'none'}
          onValue={(text) => {
            const kind = kinds.find((one) => one === text);
            const fabric = lists.fabrics[0]?.value ?? '';
            const waste = quantity?.wastePercent ?? usualWaste;
            put(
              kind === undefined
                ? { quantity: null, oneBatch: false }
                : { quantity: blank(kind, waste, fabric) },
            );
          }}
          options={(['none', ...kinds] as const).map((kind) => ({
            value: kind,
            label: texts.quantities[kind],
          }))}
        />
        {quantity !== null && (
          <>
            <ByKind {...shared} quantity={quantity} />
            <Needed
              label={texts.waste}
              unit={texts.percent}
              min={0}
              max={100}
              value={quantity.wastePercent}
              onValue={(wastePercent) => put({ quantity: { ...quantity, wastePercent } })}
              fault={at('.wastePercent')}
            />
          </>
        )}
      </div>
      {quantity?.kind === 'laminate' && <Plies {...shared} quantity={quantity} />}
      {quantity?.kind === 'tabbing' && <Strips {...shared} quantity={quantity} />}
    </>
  );
}

function ByKind({ quantity, ...rest }: OfQuantity<Quantity>) {
  const { put, fault } = rest;
  switch (quantity.kind) {
    case 'laminate':
    case 'tabbing':
      return null;
    case 'coat':
      return (
        <>
          <Coverage
            value={quantity.gramsPerM2}
            onValue={(gramsPerM2) => put({ ...quantity, gramsPerM2 })}
            fault={fault('.gramsPerM2')}
          />
          <Whole
            label={texts.coats}
            min={1}
            max={20}
            value={quantity.coats}
            onValue={(coats) => put({ ...quantity, coats })}
            fault={fault('.coats')}
          />
        </>
      );
    case 'fill':
      return (
        <Millimetres
          label={texts.thickness}
          value={quantity.mm}
          onValue={(mm) => put({ ...quantity, mm })}
          fault={fault('.mm')}
        />
      );
    case 'fillet':
      return (
        <>
          <Millimetres
            label={texts.radius}
            value={quantity.radiusMm}
            onValue={(radiusMm) => put({ ...quantity, radiusMm })}
            fault={fault('.radiusMm')}
          />
          <Whole
            label={texts.sides}
            min={1}
            max={2}
            value={quantity.sides}
            onValue={(sides) => put({ ...quantity, sides })}
            fault={fault('.sides')}
          />
        </>
      );
    case 'glue-line':
      return (
        <>
          <Millimetres
            label={texts.width}
            value={quantity.widthMm}
            onValue={(widthMm) => put({ ...quantity, widthMm })}
            fault={fault('.widthMm')}
          />
          <Coverage
            value={quantity.gramsPerM2}
            onValue={(gramsPerM2) => put({ ...quantity, gramsPerM2 })}
            fault={fault('.gramsPerM2')}
          />
        </>
      );
  }
}

interface OfNumber<T> {
  readonly value: T;
  readonly onValue: (value: T) => void;
  readonly fault: string | undefined;
}

const Millimetres = ({ label, ...rest }: OfNumber<number> & { readonly label: string }) => (
  <Needed label={label} unit={texts.mm} min={0} {...rest} />
);

const Coverage = (rest: OfNumber<number | null>) => (
  <NumberField
    label={texts.coverage}
    hint={texts.coverageHint}
    unit={texts.coverageUnit}
    isOptional
    min={0}
    {...rest}
  />
);

function Plies({ quantity, put, fault, lists }: OfQuantity<Of<'laminate'>>) {
  return (
    <Rows
      legend={texts.plies}
      what={texts.ply}
      addLabel={texts.addPly}
      rows={quantity.plies}
      onRows={(plies) => put({ ...quantity, plies: [...plies] })}
      blank={() => ({ fabric: lists.fabrics[0]?.value ?? '', layers: 1 })}
      least={1}
      fault={fault('.plies')}
    >
      {(ply, change, k) => (
        <>
          <Fabric
            value={ply.fabric}
            onValue={(fabric) => change({ fabric })}
            fault={fault(`.plies[${String(k)}].fabric`)}
            lists={lists}
          />
          <Whole
            label={texts.layers}
            min={1}
            max={100}
            value={ply.layers}
            onValue={(layers) => change({ layers })}
            fault={fault(`.plies[${String(k)}].layers`)}
          />
        </>
      )}
    </Rows>
  );
}

function Strips({ quantity, put, fault, lists }: OfQuantity<Of<'tabbing'>>) {
  return (
    <Rows
      legend={texts.plies}
      what={texts.ply}
      addLabel={texts.addPly}
      rows={quantity.plies}
      onRows={(plies) => put({ ...quantity, plies: [...plies] })}
      blank={() => ({ fabric: lists.fabrics[0]?.value ?? '', widthMm: 100 })}
      least={1}
      fault={fault('.plies')}
    >
      {(ply, change, k) => (
        <>
          <Fabric
            value={ply.fabric}
            onValue={(fabric) => change({ fabric })}
            fault={fault(`.plies[${String(k)}].fabric`)}
            lists={lists}
          />
          <Millimetres
            label={texts.width}
            value={ply.widthMm}
            onValue={(widthMm) => change({ widthMm })}
            fault={fault(`.plies[${String(k)}].widthMm`)}
          />
        </>
      )}
    </Rows>
  );
}

const Fabric = ({ value, onValue, fault, lists }: OfNumber<string> & Pick<OfStep, 'lists'>) => (
  <OptionalChoice
    label={texts.fabric}
    none={texts.noMaterial}
    value={value === '' ? null : value}
    options={lists.fabrics}
    fault={fault}
    onValue={(fabric) => onValue(fabric ?? '')}
  />
);
