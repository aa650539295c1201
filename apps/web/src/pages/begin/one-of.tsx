import { useId } from 'preact/hooks';
import looks from '../../looks/looks.module.css';

interface Choice<Value extends string> {
  readonly value: Value;
  readonly label: string;
  readonly hint?: string;
}

/** One of a few that are worth reading. */
export function OneOf<Value extends string>({
  label,
  value,
  onValue,
  choices,
}: {
  readonly label: string;
  readonly value: Value;
  readonly onValue: (value: Value) => void;
  readonly choices: readonly Choice<Value>[];
}) {
  const name = useId();
  return (
    <fieldset class={looks['field']}>
      <legend class={looks['label']}>{label}</legend>
      {choices.map((choice) => (
        <label key={choice.value} class={looks['check']}>
          <input
            type="radio"
            name={name}
            checked={value === choice.value}
            onChange={() => onValue(choice.value)}
          />
          <span>
            {choice.label}
            {choice.hint !== undefined && (
              <>
                <br />
                <span class={looks['hint']}>{choice.hint}</span>
              </>
            )}
          </span>
        </label>
      ))}
    </fieldset>
  );
}
