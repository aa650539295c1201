import { setUp as texts } from '../../../texts/set-up.ts';
import css from '../set-up.module.css';

export const weekdays = [1, 2, 3, 4, 5, 6, 7] as const;

/** Days of the week, ISO: Monday is 1. */
export function DaysField({
  label,
  days,
  onDays,
}: {
  readonly label: string;
  readonly days: readonly number[];
  readonly onDays: (days: number[]) => void;
}) {
  return (
    <fieldset class={css['days']}>
      <legend>{label}</legend>
      {weekdays.map((weekday) => (
        <label key={weekday} class={css['day']}>
          <input
            type="checkbox"
            checked={days.includes(weekday)}
            aria-label={texts.hours.weekdays[weekday - 1]}
            onChange={(event) => {
              const isOn = event.currentTarget.checked;
              onDays(weekdays.filter((one) => (one === weekday ? isOn : days.includes(one))));
            }}
          />
          <span aria-hidden="true">{texts.hours.short[weekday - 1]}</span>
        </label>
      ))}
      {days.length === 0 && <span class={css['fault']}>{texts.hours.noDay}</span>}
    </fieldset>
  );
}
