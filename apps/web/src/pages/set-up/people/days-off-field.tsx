import { useState } from 'preact/hooks';
import { ChoiceField, TextField } from '../../../form/fields.tsx';
import { Button, Notice, Panel, Row } from '../../../looks/looks.tsx';
import { dayOfDate } from '../../../show/time.ts';
import { common } from '../../../texts/common.ts';
import { people } from '../../../texts/set-up-people.ts';
import { setUp } from '../../../texts/set-up.ts';
import css from '../set-up.module.css';
import {
  datesBetween,
  type Exception,
  mostDays,
  type Stretch,
  stretchesOf,
  withDays,
  withoutStretch,
} from './days-off.ts';

const texts = people.daysOff;

/** Days on which somebody's hours are not the week's. */
export function DaysOffField({
  exceptions,
  onExceptions,
}: {
  readonly exceptions: readonly Exception[];
  readonly onExceptions: (exceptions: Exception[]) => void;
}) {
  const stretches = stretchesOf(exceptions);
  return (
    <Panel title={texts.legend}>
      <p class={css['soft']}>{texts.hint}</p>
      {stretches.length === 0 && <p>{texts.none}</p>}
      <ul class={css['plainList']}>
        {stretches.map((stretch) => (
          <li key={stretch.first} class={css['entry']}>
            <span class={css['entryText']}>
              <strong>{daysOf(stretch)}</strong>
              <span>{wordsOf(stretch)}</span>
            </span>
            <Button
              label={texts.removeThese(daysOf(stretch))}
              onPress={() => onExceptions(withoutStretch(exceptions, stretch))}
            >
              {common.remove}
            </Button>
          </li>
        ))}
      </ul>
      <Adding
        taken={exceptions.map(({ date }) => date)}
        onAdd={(dates, day) => onExceptions(withDays(exceptions, dates, day))}
      />
    </Panel>
  );
}

const daysOf = ({ first, last, days }: Stretch): string =>
  first === last
    ? dayOfDate(first)
    : `${texts.range(dayOfDate(first), dayOfDate(last))} (${texts.count(days)})`;

function wordsOf({ shifts, reason }: Stretch): string {
  const what =
    shifts.length === 0
      ? texts.off
      : shifts.map(({ from, to }) => setUp.hours.times(from, to)).join(', ');
  return reason === '' ? what : `${what}: ${reason}`;
}

const nothing = { first: '', last: '', kind: 'off', from: '08:00', to: '12:00', reason: '' };

function Adding({
  taken,
  onAdd,
}: {
  readonly taken: readonly string[];
  readonly onAdd: (dates: readonly string[], day: Omit<Exception, 'date'>) => void;
}) {
  const [isOpen, setOpen] = useState(false);
  const [typed, setTyped] = useState(nothing);
  const change = (some: Partial<typeof nothing>): void => setTyped((was) => ({ ...was, ...some }));
  if (!isOpen) {
    return (
      <div>
        <Button onPress={() => setOpen(true)}>{texts.add}</Button>
      </div>
    );
  }
  const last = typed.last === '' ? typed.first : typed.last;
  const dates = datesBetween(typed.first, last);
  const isBackwards = typed.first !== '' && dates.length === 0;
  const isLong = dates.length === mostDays && dates.at(-1) !== last;
  const replaced = dates.filter((date) => taken.includes(date));
  const fault = isBackwards ? texts.wrongRange : isLong ? texts.tooLong(mostDays) : undefined;
  const add = (): void => {
    if (dates.length === 0 || fault !== undefined) return;
    const { kind, from, to, reason } = typed;
    onAdd(dates, { shifts: kind === 'off' ? [] : [{ from, to, breaks: [] }], reason });
    setTyped(nothing);
    setOpen(false);
  };
  return (
    <fieldset class={css['rows']}>
      <legend>{texts.addTitle}</legend>
      <div class={css['cols']}>
        <TextField
          type="date"
          label={texts.from}
          value={typed.first}
          onValue={(first) => change({ first })}
        />
        <TextField
          type="date"
          label={texts.until}
          isOptional
          value={typed.last}
          onValue={(value) => change({ last: value })}
          fault={fault}
        />
        <ChoiceField
          label={texts.what}
          value={typed.kind}
          onValue={(kind) => change({ kind })}
          options={[
            { value: 'off', label: texts.off },
            { value: 'other', label: texts.other },
          ]}
        />
        {typed.kind === 'other' && (
          <>
            <TextField
              type="time"
              label={setUp.hours.from}
              value={typed.from}
              onValue={(from) => change({ from })}
            />
            <TextField
              type="time"
              label={setUp.hours.to}
              value={typed.to}
              onValue={(to) => change({ to })}
            />
          </>
        )}
        <TextField
          label={texts.reason}
          isOptional
          maxLength={200}
          value={typed.reason}
          onValue={(reason) => change({ reason })}
        />
      </div>
      {replaced.length > 0 && (
        <Notice tone="heed">{texts.replaces(replaced.map(dayOfDate))}</Notice>
      )}
      <Row>
        <Button disabled={dates.length === 0 || fault !== undefined} onPress={add}>
          {texts.adding}
        </Button>
        <Button kind="quiet" onPress={() => setOpen(false)}>
          {common.cancel}
        </Button>
      </Row>
    </fieldset>
  );
}
