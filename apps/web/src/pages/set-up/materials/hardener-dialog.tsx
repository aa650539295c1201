import type { Schema } from '../../../api/client.ts';
import { ChoiceField, NumberField } from '../../../form/fields.tsx';
import { useForm } from '../../../form/form.ts';
import { Row } from '../../../looks/looks.tsx';
import { materials as texts } from '../../../texts/materials.ts';
import { FormDialog } from '../dialog/form-dialog.tsx';
import { useBeginning } from '../record/beginning.ts';
import { Needed } from '../rows/numbers.tsx';
import { meanwhile } from './changed-in.ts';
import { EvidenceFields, type EvidenceValues } from './evidence.tsx';
import type { Material } from './material-collection.ts';
import type { Change, Sheet } from './sheet.ts';

const of = texts.hardener;

interface Values extends EvidenceValues {
  readonly kind: 'percent' | 'ratio';
  readonly per100: number;
  readonly usual: number;
  readonly used: number | null;
  readonly warnLow: number | null;
  readonly warnHigh: number | null;
  readonly blockLow: number | null;
  readonly blockHigh: number | null;
  readonly effect: number | null;
}

function begin({ hardener }: Material, sheet: Sheet): Values {
  const line = (field: string): number =>
    sheet.lines.find((one) => one.field === field)?.value ?? Number.NaN;
  const known = sheet.hardener;
  const own = hardener?.kind === 'ratio' ? hardener.per100 : hardener?.usual;
  return {
    kind: hardener?.kind ?? known?.kind ?? (sheet.base === 'epoxy' ? 'ratio' : 'percent'),
    per100: line('hardener.per100'),
    usual: line('hardener.usual'),
    used: hardener?.kind === 'percent' ? hardener.used : null,
    warnLow: known?.warn?.low ?? null,
    warnHigh: known?.warn?.high ?? null,
    blockLow: known?.block?.low ?? null,
    blockHigh: known?.block?.high ?? null,
    effect: hardener?.kind === 'percent' ? (hardener.effect?.value ?? null) : null,
    source: own?.source ?? '',
    trust: own?.trust ?? 'sheet',
    spread: own?.spread ?? null,
  };
}

/** Both ends, or nothing; one alone is sent with the other missing, and the service says so. */
const rangeOf = (low: number | null, high: number | null) =>
  low === null && high === null ? null : { low: low ?? Number.NaN, high: high ?? Number.NaN };

function sentOf(values: Values): Schema<'HardenerInput'> {
  const { source, trust, spread } = values;
  const figure = (value: number) => ({ value, source, trust, spread });
  if (values.kind === 'ratio') return { kind: 'ratio', per100: figure(values.per100) };
  return {
    kind: 'percent',
    usual: figure(values.usual),
    used: values.used,
    warn: rangeOf(values.warnLow, values.warnHigh),
    block: rangeOf(values.blockLow, values.blockHigh),
    // The spread that was typed is of the percentage.
    effect: values.effect === null ? null : { value: values.effect, source, trust, spread: null },
  };
}

export function HardenerDialog({
  material,
  sheet,
  change,
  onClose,
}: {
  readonly material: Material;
  readonly sheet: Sheet;
  readonly change: Change;
  readonly onClose: () => void;
}) {
  const { theirs, send } = useBeginning(material, change);
  const form = useForm<Values>(begin(material, sheet), async (values) => {
    await send({ hardener: sentOf(values) });
    onClose();
  });
  const { values, set, faultAt } = form;
  const figure = values.kind === 'ratio' ? 'hardener.per100' : 'hardener.usual';
  return (
    <FormDialog title={of.title} form={form} meanwhile={meanwhile(theirs)} onClose={onClose}>
      <ChoiceField
        label={of.kind}
        value={values.kind}
        onValue={(kind) => set('kind', kind === 'ratio' ? 'ratio' : 'percent')}
        options={(['percent', 'ratio'] as const).map((kind) => ({
          value: kind,
          label: of.kinds[kind],
        }))}
      />
      {values.kind === 'ratio' ? (
        <Needed
          label={of.per100}
          unit={texts.fieldUnits['hardener.per100']}
          value={values.per100}
          onValue={(value) => set('per100', value)}
          fault={faultAt(`${figure}.value`)}
        />
      ) : (
        <PercentFields values={values} set={set} faultAt={faultAt} />
      )}
      <EvidenceFields
        values={values}
        set={(some) => {
          if (some.source !== undefined) set('source', some.source);
          if (some.trust !== undefined) set('trust', some.trust);
          if (some.spread !== undefined) set('spread', some.spread);
        }}
        faultAt={(part) => faultAt(`${figure}.${part}`)}
        spreadIs="factor"
      />
    </FormDialog>
  );
}

function PercentFields({
  values,
  set,
  faultAt,
}: {
  readonly values: Values;
  readonly set: <K extends keyof Values>(key: K, value: Values[K]) => void;
  readonly faultAt: (path: string) => string | undefined;
}) {
  const unit = texts.fieldUnits['hardener.usual'];
  const ends = [
    [of.warn, 'warn', 'warnLow', 'warnHigh'],
    [of.block, 'block', 'blockLow', 'blockHigh'],
  ] as const;
  return (
    <>
      <Needed
        label={of.usual}
        unit={unit}
        value={values.usual}
        onValue={(value) => set('usual', value)}
        fault={faultAt('hardener.usual.value') ?? faultAt('hardener.usual')}
      />
      <NumberField
        label={of.used}
        unit={unit}
        isOptional
        value={values.used}
        onValue={(value) => set('used', value)}
        fault={faultAt('hardener.used')}
      />
      {ends.map(([label, field, low, high]) => (
        <Row key={field}>
          <NumberField
            label={`${label} ${of.low}`}
            unit={unit}
            value={values[low]}
            onValue={(value) => set(low, value)}
            fault={faultAt(`hardener.${field}.low`) ?? faultAt(`hardener.${field}`)}
          />
          <NumberField
            label={`${label} ${of.high}`}
            unit={unit}
            value={values[high]}
            onValue={(value) => set(high, value)}
            fault={faultAt(`hardener.${field}.high`)}
          />
        </Row>
      ))}
      <NumberField
        label={of.effect}
        hint={of.effectHint}
        isOptional
        value={values.effect}
        onValue={(value) => set('effect', value)}
        fault={faultAt('hardener.effect.value') ?? faultAt('hardener.effect')}
      />
    </>
  );
}
