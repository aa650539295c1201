import { Needed } from '../rows/numbers.tsx';

/** A whole number that there has to be. */
export const Whole = ({
  label,
  value,
  onValue,
  fault,
  unit,
  min,
  max,
}: {
  readonly label: string;
  readonly value: number;
  readonly onValue: (value: number) => void;
  readonly fault: string | undefined;
  readonly unit?: string;
  readonly min: number;
  readonly max?: number;
}) => (
  <Needed
    label={label}
    value={value}
    onValue={onValue}
    fault={fault}
    min={min}
    step={1}
    {...(unit === undefined ? {} : { unit })}
    {...(max === undefined ? {} : { max })}
  />
);
