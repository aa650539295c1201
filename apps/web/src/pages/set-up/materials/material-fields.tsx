import {
  CheckField,
  ChoiceField,
  NumberField,
  QuantityField,
  TextField,
} from '../../../form/fields.tsx';
import type { Form } from '../../../form/form.ts';
import { common } from '../../../texts/common.ts';
import { materials as texts } from '../../../texts/materials.ts';
import { optionsOf, useList } from '../lists/lists.ts';
import css from '../set-up.module.css';
import { useClasses } from './classes.ts';
import type { MaterialValues } from './material-collection.ts';

type Choices<T extends string> = Readonly<Record<T, string>>;

/** One of a few, or what the class says. */
function OrAsClass<T extends string>({
  label,
  value,
  onValue,
  choices,
  fault,
  hasClass,
}: {
  readonly label: string;
  readonly value: T | null;
  readonly onValue: (value: T | null) => void;
  readonly choices: Choices<T>;
  readonly fault: string | undefined;
  readonly hasClass: boolean;
}) {
  const names = Object.keys(choices) as T[];
  const empty = hasClass ? texts.asClass : texts.unknown;
  return (
    <ChoiceField
      label={label}
      fault={fault}
      value={value ?? ''}
      onValue={(text) => onValue(names.find((name) => name === text) ?? null)}
      options={[
        { value: '', label: empty },
        ...names.map((name) => ({ value: name, label: choices[name] })),
      ]}
    />
  );
}

const yesNo: Choices<'yes' | 'no'> = { yes: common.yes, no: common.no };
const asWord = (value: boolean | null): 'yes' | 'no' | null =>
  value === null ? null : value ? 'yes' : 'no';
const asTruth = (word: 'yes' | 'no' | null): boolean | null =>
  word === null ? null : word === 'yes';

/** What a material is, but for its name and the numbers of its sheet. */
export function MaterialFields({ form }: { readonly form: Form<MaterialValues> }) {
  const classes = useClasses();
  const spaces = useList('spaces');
  const { values } = form;
  const hasClass = values.classId !== null;
  const bases = Object.keys(texts.bases) as MaterialValues['resinSystem'][];
  return (
    <>
      <ChoiceField
        label={texts.ofClass}
        hint={texts.ofClassHint}
        fault={form.faultAt('classId')}
        value={values.classId ?? ''}
        onValue={(id) => {
          const found = classes.data?.find((one) => one.id === id);
          form.set('classId', found?.id ?? null);
          if (found !== undefined) form.set('resinSystem', found.base);
        }}
        options={[{ value: '', label: texts.noClass }, ...optionsOf(classes.data)]}
      />
      <div class={css['cols']}>
        {!hasClass && (
          <ChoiceField
            label={texts.base}
            fault={form.faultAt('resinSystem')}
            value={values.resinSystem}
            onValue={(text) =>
              form.set('resinSystem', bases.find((base) => base === text) ?? 'epoxy')
            }
            options={bases.map((base) => ({ value: base, label: texts.bases[base] }))}
          />
        )}
        <OrAsClass label={texts.use} {...form.at('use')} choices={texts.uses} hasClass={hasClass} />
        <OrAsClass
          label={texts.surface}
          {...form.at('surface')}
          choices={texts.surfaces}
          hasClass={hasClass}
        />
        <OrAsClass
          label={texts.waxed}
          value={asWord(values.waxed)}
          onValue={(word) => form.set('waxed', asTruth(word))}
          fault={form.faultAt('waxed')}
          choices={yesNo}
          hasClass={hasClass}
        />
        <OrAsClass
          label={texts.blushes}
          value={asWord(values.blushes)}
          onValue={(word) => form.set('blushes', asTruth(word))}
          fault={form.faultAt('blushes')}
          choices={yesNo}
          hasClass={hasClass}
        />
        <OrAsClass
          label={texts.belowMinimum}
          {...form.at('belowMinimum')}
          choices={texts.belowMinimums}
          hasClass={hasClass}
        />
        <OrAsClass
          label={texts.dampAir}
          {...form.at('dampAir')}
          choices={texts.dampAirs}
          hasClass={hasClass}
        />
        {!hasClass && (
          <>
            <QuantityField
              kind="temperature"
              label={texts.fields.minimumC}
              {...form.at('minimumC')}
            />
            <QuantityField
              kind="temperature"
              label={texts.fields.maximumC}
              {...form.at('maximumC')}
            />
          </>
        )}
        <ChoiceField
          label={texts.keptIn}
          hint={texts.keptInHint}
          fault={form.faultAt('keptIn')}
          value={values.keptIn ?? ''}
          onValue={(id) => form.set('keptIn', id === '' ? null : id)}
          options={[{ value: '', label: texts.keptHere }, ...optionsOf(spaces.data)]}
        />
        {values.keptIn !== null && (
          <NumberField
            label={texts.keptLag}
            unit={texts.fieldUnits.holdHours}
            min={0}
            max={240}
            fault={form.faultAt('keptLagHours')}
            value={values.keptLagHours}
            onValue={(hours) => form.set('keptLagHours', hours ?? 0)}
          />
        )}
      </div>
      <CheckField label={texts.isocyanate} {...form.at('isocyanate')} />
      <TextField
        label={texts.ownCautions}
        hint={texts.ownCautionsHint}
        fault={form.faultAt('cautions')}
        lines={3}
        isOptional
        value={values.cautions.join('\n')}
        onValue={(text) => form.set('cautions', text === '' ? [] : text.split('\n'))}
      />
    </>
  );
}
