import { ChoiceField, type Option } from '../../../form/fields.tsx';

/** One of a list, or nothing. */
export const OptionalChoice = ({
  label,
  hint,
  none,
  value,
  options,
  fault,
  onValue,
}: {
  readonly label: string;
  readonly hint?: string | undefined;
  readonly none: string;
  readonly value: string | null;
  readonly options: readonly Option[];
  readonly fault?: string | undefined;
  readonly onValue: (value: string | null) => void;
}) => (
  <ChoiceField
    label={label}
    hint={hint}
    fault={fault}
    value={value ?? ''}
    onValue={(text) => onValue(text === '' ? null : text)}
    options={[{ value: '', label: none }, ...withKnown(options, value)]}
  />
);

/** What is chosen is among the choices, even where the list is not read yet or lacks it by now. */
function withKnown(options: readonly Option[], value: string | null): readonly Option[] {
  if (value === null || options.some((option) => option.value === value)) return options;
  return [...options, { value, label: value }];
}
