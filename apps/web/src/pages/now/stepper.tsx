import { useId } from 'preact/hooks';
import css from './now.module.css';

/** A number that a thumb in a glove sets. */
export function Stepper({
  label,
  hint,
  value,
  shown,
  step,
  min = -Infinity,
  max = Infinity,
  less,
  more,
  onValue,
}: {
  readonly label: string;
  readonly hint?: string;
  readonly value: number;
  readonly shown: string;
  readonly step: number;
  readonly min?: number;
  readonly max?: number;
  readonly less: string;
  readonly more: string;
  readonly onValue: (value: number) => void;
}) {
  const id = useId();
  const by = (change: number) => () =>
    onValue(Math.min(max, Math.max(min, Number((value + change).toFixed(2)))));
  return (
    <div class={css['stepper']} role="group" aria-labelledby={id}>
      <span id={id} class={css['name']}>
        {label}
      </span>
      {hint !== undefined && <span class={css['soft']}>{hint}</span>}
      <div class={css['steps']}>
        <button type="button" class={css['step']} onClick={by(-step)}>
          <span aria-hidden="true">−</span>
          <span class="said">{less}</span>
        </button>
        <output class={css['value']} aria-live="polite">
          {shown}
        </output>
        <button type="button" class={css['step']} onClick={by(step)}>
          <span aria-hidden="true">+</span>
          <span class="said">{more}</span>
        </button>
      </div>
    </div>
  );
}
