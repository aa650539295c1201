import type { ComponentChildren } from 'preact';
import { useRef } from 'preact/hooks';
import { Button } from '../../../looks/looks.tsx';
import { setUp as texts } from '../../../texts/set-up.ts';
import css from '../set-up.module.css';

interface RowsProps<T> {
  readonly legend: string;
  readonly hint?: string | undefined;
  /** The heading above says it already. */
  readonly isTitled?: boolean | undefined;
  /** One of them, in words: `Break`. */
  readonly what: string;
  readonly addLabel: string;
  readonly rows: readonly T[];
  readonly onRows: (rows: readonly T[]) => void;
  readonly blank: () => T;
  /** At least so many stay. */
  readonly least?: number;
  /** What is wrong with the list as a whole. */
  readonly fault?: string | undefined;
  readonly children: (row: T, put: (change: Partial<T>) => void, at: number) => ComponentChildren;
}

/** A list of things that each have some fields: changed in place, added, removed. */
export function Rows<T extends object>({
  legend,
  hint,
  isTitled = false,
  what,
  addLabel,
  rows,
  onRows,
  blank,
  least = 0,
  fault,
  children,
}: RowsProps<T>) {
  const adding = useRef<HTMLDivElement>(null);
  return (
    <fieldset class={css['rows']}>
      <legend class={isTitled ? 'said' : undefined}>{legend}</legend>
      {hint !== undefined && <p class={css['soft']}>{hint}</p>}
      {fault !== undefined && <p class={css['fault']}>{fault}</p>}
      {rows.map((row, at) => (
        <div
          key={at}
          class={css['rowBox']}
          role="group"
          aria-label={texts.rows.number(what, at + 1)}
        >
          {children(
            row,
            (change) => onRows(rows.map((one, k) => (k === at ? { ...one, ...change } : one))),
            at,
          )}
          {rows.length > least && (
            <div class={css['remove']}>
              <Button
                label={texts.rows.removeRow(what, at + 1)}
                onPress={() => {
                  onRows(rows.filter((_, k) => k !== at));
                  // The button that was pressed is gone with its row.
                  adding.current?.querySelector('button')?.focus();
                }}
              >
                {texts.rows.remove(what)}
              </Button>
            </div>
          )}
        </div>
      ))}
      <div ref={adding}>
        <Button onPress={() => onRows([...rows, blank()])}>{addLabel}</Button>
      </div>
    </fieldset>
  );
}
