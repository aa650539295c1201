import type { Schema } from '../../../api/client.ts';
import { NumberField, QuantityField } from '../../../form/fields.tsx';
import { useForm } from '../../../form/form.ts';
import { materials as texts } from '../../../texts/materials.ts';
import { FormDialog } from '../dialog/form-dialog.tsx';
import { useBeginning } from '../record/beginning.ts';
import { meanwhile } from './changed-in.ts';
import { EvidenceFields, type EvidenceValues } from './evidence.tsx';
import { type Field, isDegrees, isLimit, isOffset, patchOf } from './figure-fields.ts';
import type { Material } from './material-collection.ts';
import type { Change } from './sheet.ts';

type Values = EvidenceValues & { readonly value: number | null };

/** What stands there: the yard's own with its evidence, or the class's number to begin from. */
function begin(field: Field, material: Material, line: Schema<'SheetLine'> | undefined): Values {
  const own = isLimit(field) ? null : material[field];
  if (own !== null) return own;
  return { value: line?.value ?? null, source: '', trust: 'sheet', spread: null };
}

/** The yard's own number in the place of the class's. */
export function FigureDialog({
  field,
  material,
  line,
  change,
  onClose,
}: {
  readonly field: Field;
  readonly material: Material;
  readonly line: Schema<'SheetLine'> | undefined;
  readonly change: Change;
  readonly onClose: () => void;
}) {
  const { theirs, send } = useBeginning(material, change);
  const form = useForm<Values>(begin(field, material, line), async ({ value, ...evidence }) => {
    // What is not a number is sent as it is: the service says which field lacks one.
    const given = value ?? Number.NaN;
    await send(patchOf(field, isLimit(field) ? given : { value: given, ...evidence }));
    onClose();
  });
  const { values, set, faultAt } = form;
  const name = texts.fields[field];
  const shared = {
    label: name,
    value: values.value,
    onValue: (value: number | null) => set('value', value),
    fault: faultAt(isLimit(field) ? field : `${field}.value`),
    required: true,
  };
  const named: Partial<Record<Field, string>> = texts.fieldUnits;
  return (
    <FormDialog
      title={texts.enter(name)}
      form={form}
      meanwhile={meanwhile(theirs)}
      onClose={onClose}
    >
      {isLimit(field) ? (
        <QuantityField kind="temperature" {...shared} />
      ) : isDegrees(field) ? (
        <QuantityField kind="degrees" {...shared} />
      ) : (
        <NumberField {...shared} unit={named[field]} />
      )}
      {!isLimit(field) && (
        <EvidenceFields
          values={values}
          set={(some) => {
            if (some.source !== undefined) set('source', some.source);
            if (some.trust !== undefined) set('trust', some.trust);
            if (some.spread !== undefined) set('spread', some.spread);
          }}
          faultAt={(part) => faultAt(`${field}.${part}`)}
          spreadIs={isOffset(field) ? 'offset' : 'factor'}
        />
      )}
    </FormDialog>
  );
}
