import type { ComponentChildren } from 'preact';
import { useId, useLayoutEffect, useState } from 'preact/hooks';
import css from '../looks/looks.module.css';
import { units } from '../session/session.ts';
import { type Kind, scaleOf, shownNumber, storedNumber } from '../show/units.ts';
import { instantOf, localIn } from '../show/time.ts';
import { common } from '../texts/common.ts';

interface FieldProps {
  readonly label: string;
  readonly hint?: string | undefined;
  readonly fault?: string | undefined;
  readonly isOptional?: boolean;
}

interface Wiring {
  readonly id: string;
  readonly 'aria-describedby': string | undefined;
  readonly 'aria-invalid': boolean;
}

function Field({
  label,
  hint,
  fault,
  isOptional = false,
  children,
}: FieldProps & { readonly children: (wiring: Wiring) => ComponentChildren }) {
  const id = useId();
  const about = [hint === undefined ? '' : `${id}-hint`, fault === undefined ? '' : `${id}-fault`];
  const described = about.filter(Boolean).join(' ');
  return (
    <div class={css['field']}>
      <label class={css['label']} for={id}>
        {label} {isOptional && <span class={css['hint']}>({common.optional})</span>}
      </label>
      {hint !== undefined && (
        <span class={css['hint']} id={`${id}-hint`}>
          {hint}
        </span>
      )}
      {children({
        id,
        'aria-describedby': described === '' ? undefined : described,
        'aria-invalid': fault !== undefined,
      })}
      {fault !== undefined && (
        <span class={css['fault']} id={`${id}-fault`}>
          {fault}
        </span>
      )}
    </div>
  );
}

export function TextField({
  value,
  onValue,
  type = 'text',
  autocomplete,
  lines = 1,
  required = false,
  maxLength,
  ...field
}: FieldProps & {
  readonly value: string;
  readonly onValue: (value: string) => void;
  readonly type?: 'text' | 'email' | 'password' | 'search' | 'date' | 'time';
  readonly autocomplete?: AutoFill;
  readonly lines?: number;
  readonly required?: boolean;
  readonly maxLength?: number;
}) {
  return (
    <Field {...field}>
      {(wiring) =>
        lines > 1 ? (
          <textarea
            {...wiring}
            class={css['input']}
            rows={lines}
            value={value}
            required={required}
            maxLength={maxLength}
            onInput={(event) => onValue(event.currentTarget.value)}
          />
        ) : (
          <input
            {...wiring}
            class={css['input']}
            {...({ type } as { readonly type: 'text' })}
            value={value}
            autocomplete={autocomplete}
            required={required}
            maxLength={maxLength}
            onInput={(event) => onValue(event.currentTarget.value)}
          />
        )
      }
    </Field>
  );
}

/** A number as it is; null while the field is empty or holds none. */
export function NumberField({
  value,
  onValue,
  unit,
  min,
  max,
  step = 'any',
  required = false,
  ...field
}: FieldProps & {
  readonly value: number | null;
  readonly onValue: (value: number | null) => void;
  readonly unit?: string | undefined;
  readonly min?: number | undefined;
  readonly max?: number | undefined;
  readonly step?: number | 'any';
  readonly required?: boolean;
}) {
  // What is typed is kept as typed: `0.` is on its way to `0.5`. What is set from elsewhere is there at once.
  const [typed, setTyped] = useState(value === null ? '' : String(value));
  useLayoutEffect(() => {
    if (value !== numberOf(typed)) setTyped(value === null ? '' : String(value));
  }, [value]);
  return (
    <Field {...field}>
      {(wiring) => (
        <span class={css['measure']}>
          <input
            {...wiring}
            class={css['input']}
            type="number"
            inputMode="decimal"
            value={typed}
            min={min}
            max={max}
            step={step}
            required={required}
            onInput={(event) => {
              setTyped(event.currentTarget.value);
              onValue(numberOf(event.currentTarget.value));
            }}
          />
          {unit !== undefined && <span>{unit}</span>}
        </span>
      )}
    </Field>
  );
}

function numberOf(typed: string): number | null {
  const value = Number(typed);
  return typed.trim() === '' || !Number.isFinite(value) ? null : value;
}

/** A quantity: stored in SI, °C or grams; shown and typed in the units of whoever is signed in. */
export function QuantityField({
  kind,
  value,
  onValue,
  ...field
}: FieldProps & {
  readonly kind: Kind;
  readonly value: number | null;
  readonly onValue: (value: number | null) => void;
  readonly required?: boolean;
}) {
  const mine = units.value;
  return (
    <NumberField
      {...field}
      unit={scaleOf(kind, mine).unit}
      value={value === null ? null : shownNumber(kind, value, mine)}
      onValue={(shown) => onValue(shown === null ? null : storedNumber(kind, shown, mine))}
    />
  );
}

export interface Option {
  readonly value: string;
  readonly label: string;
}

/** One of a few. */
export function ChoiceField({
  value,
  onValue,
  options,
  ...field
}: FieldProps & {
  readonly value: string;
  readonly onValue: (value: string) => void;
  readonly options: readonly Option[];
}) {
  return (
    <Field {...field}>
      {(wiring) => (
        <select
          {...wiring}
          class={css['input']}
          value={value}
          onChange={(event) => onValue(event.currentTarget.value)}
        >
          {options.map((option) => (
            <option key={option.value} value={option.value}>
              {option.label}
            </option>
          ))}
        </select>
      )}
    </Field>
  );
}

export function CheckField({
  label,
  value,
  onValue,
}: {
  readonly label: string;
  readonly value: boolean;
  readonly onValue: (value: boolean) => void;
}) {
  return (
    <label class={css['check']}>
      <input
        type="checkbox"
        checked={value}
        onChange={(event) => onValue(event.currentTarget.checked)}
      />
      {label}
    </label>
  );
}

/** Several of a list, each with its box. */
export function SeveralField({
  label,
  values,
  onValues,
  options,
}: {
  readonly label: string;
  readonly values: readonly string[];
  readonly onValues: (values: readonly string[]) => void;
  readonly options: readonly Option[];
}) {
  return (
    <fieldset class={css['field']}>
      <legend class={css['label']}>{label}</legend>
      {options.map((option) => (
        <CheckField
          key={option.value}
          label={option.label}
          value={values.includes(option.value)}
          onValue={(isOn) =>
            onValues(
              isOn ? [...values, option.value] : values.filter((one) => one !== option.value),
            )
          }
        />
      ))}
    </fieldset>
  );
}

/** A moment, typed as the yard's wall clock shows it, kept in UTC; null: none. */
export function MomentField({
  value,
  onValue,
  zone,
  ...field
}: FieldProps & {
  readonly value: string | null;
  readonly onValue: (value: string | null) => void;
  readonly zone: string;
}) {
  return (
    <Field {...field}>
      {(wiring) => (
        <input
          {...wiring}
          class={css['input']}
          type="datetime-local"
          value={value === null ? '' : localIn(value, zone)}
          onChange={(event) => {
            const local = event.currentTarget.value.slice(0, 16);
            onValue(local === '' ? null : instantOf(local, zone));
          }}
        />
      )}
    </Field>
  );
}
