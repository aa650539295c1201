import { MomentField, NumberField, QuantityField } from '../../../form/fields.tsx';
import { useYard } from '../../../frame/yard.tsx';
import type { Kind } from '../../../show/units.ts';

interface Wired {
  readonly label: string;
  readonly hint?: string | undefined;
  readonly fault?: string | undefined;
  readonly value: number;
  readonly onValue: (value: number) => void;
}

/** An empty field is sent as no number, and the service says which one it wants. */
const emptied = (value: number | null): number => value ?? Number.NaN;
const shown = (value: number): number | null => (Number.isNaN(value) ? null : value);

/** A number that there has to be. */
export const Needed = ({
  value,
  onValue,
  ...rest
}: Wired & {
  readonly unit?: string;
  readonly min?: number;
  readonly max?: number;
  readonly step?: number | 'any';
}) => (
  <NumberField
    {...rest}
    required
    value={shown(value)}
    onValue={(typed) => onValue(emptied(typed))}
  />
);

/** A quantity that there has to be, in the units of whoever types it. */
export const NeededQuantity = ({ value, onValue, ...rest }: Wired & { readonly kind: Kind }) => (
  <QuantityField
    {...rest}
    required
    value={shown(value)}
    onValue={(typed) => onValue(emptied(typed))}
  />
);

/** Money in the yard's currency; kept in hundredths of it. */
export function MoneyField({ value, onValue, ...rest }: Wired) {
  const { currency } = useYard();
  return (
    <NumberField
      {...rest}
      unit={currency}
      min={0}
      step={0.01}
      required
      value={Number.isNaN(value) ? null : value / 100}
      onValue={(typed) => onValue(typed === null ? Number.NaN : Math.round(typed * 100))}
    />
  );
}

/** A moment that there has to be; `''` while there is none. */
export function NeededMoment({
  value,
  onValue,
  ...rest
}: {
  readonly label: string;
  readonly hint?: string | undefined;
  readonly fault?: string | undefined;
  readonly value: string;
  readonly onValue: (value: string) => void;
}) {
  const { timeZone } = useYard();
  return (
    <MomentField
      {...rest}
      zone={timeZone}
      value={value === '' ? null : value}
      onValue={(moment) => onValue(moment ?? '')}
    />
  );
}
