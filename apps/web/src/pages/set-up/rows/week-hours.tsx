import { useEffect, useRef, useState } from 'preact/hooks';
import { TextField } from '../../../form/fields.tsx';
import { setUp } from '../../../texts/set-up.ts';
import css from '../set-up.module.css';
import { DaysField } from './days-field.tsx';
import { totalInWords } from './hours-words.ts';
import { endsNextDay, type Pattern, patternsOf, type WeekSpan } from './patterns.ts';
import { Rows } from './rows.tsx';

const texts = setUp.hours;

interface Times {
  readonly from: string;
  readonly to: string;
}
interface Hours extends Times {
  readonly breaks: Times[];
}
type Day = WeekSpan<Hours>;
interface Hour extends Hours {
  readonly days: readonly number[];
}

const hourOf = ({ days, from, to, breaks }: Pattern<Day>): Hour => ({ days, from, to, breaks });
const daysOf = (hours: readonly Hour[]): Day[] =>
  hours.flatMap(({ days, from, to, breaks }) =>
    days.map((weekday) => ({ weekday, from, to, breaks })),
  );

/** Hours of each week, entered for several days at once. */
export function WeekHours({
  legend,
  hint,
  isTitled,
  spans,
  onSpans,
  faultAt,
  hasBreaks = false,
}: {
  readonly legend: string;
  readonly hint?: string;
  readonly isTitled?: boolean;
  readonly spans: readonly Day[];
  readonly onSpans: (spans: Day[]) => void;
  /** What is wrong with a field of a span, by the order in which they are given on. */
  readonly faultAt: (at: number, field: string) => string | undefined;
  readonly hasBreaks?: boolean;
}) {
  // What is being entered stays in the rows where it is entered, though hours may be the same for a moment.
  const [hours, setHours] = useState<readonly Hour[]>(() => patternsOf(spans).map(hourOf));
  const given = useRef(JSON.stringify(daysOf(hours)));
  useEffect(() => {
    if (JSON.stringify(spans) === given.current) return;
    const fresh = patternsOf(spans).map(hourOf);
    setHours(fresh);
    given.current = JSON.stringify(spans);
  }, [spans]);

  const put = (now: readonly Hour[]): void => {
    const days = daysOf(now);
    given.current = JSON.stringify(days);
    setHours(now);
    onSpans(days);
  };
  const firstDay = (at: number): number =>
    hours.slice(0, at).reduce((sum, { days }) => sum + days.length, 0);
  const faultIn = (at: number, field: string): string | undefined => {
    const first = firstDay(at);
    const all = hours[at]?.days.map((_, k) => faultAt(first + k, field)) ?? [];
    return all.find((fault) => fault !== undefined);
  };
  return (
    <div class={css['rows']}>
      <Rows
        legend={legend}
        what={texts.span}
        addLabel={texts.add}
        rows={hours}
        onRows={put}
        hint={hint}
        isTitled={isTitled}
        blank={() => ({
          days: hours.length === 0 ? [1, 2, 3, 4, 5] : [],
          from: '08:00',
          to: '16:30',
          breaks: hasBreaks && hours.length === 0 ? [{ from: '12:00', to: '12:30' }] : [],
        })}
      >
        {(row, change, at) => (
          <>
            <div class={css['whole']}>
              <DaysField label={texts.days} days={row.days} onDays={(days) => change({ days })} />
              {faultIn(at, '') !== undefined && <span class={css['fault']}>{faultIn(at, '')}</span>}
            </div>
            <TextField
              type="time"
              label={texts.from}
              value={row.from}
              onValue={(from) => change({ from })}
              required
              fault={faultIn(at, 'from')}
            />
            <TextField
              type="time"
              label={texts.to}
              value={row.to}
              onValue={(to) => change({ to })}
              required
              hint={endsNextDay(row) ? texts.toNextDay : undefined}
              fault={faultIn(at, 'to')}
            />
            {hasBreaks && (
              <div class={css['whole']}>
                <Breaks
                  breaks={row.breaks}
                  onBreaks={(breaks) => change({ breaks })}
                  faultAt={(k, field) => faultIn(at, `breaks[${String(k)}]${field}`)}
                />
              </div>
            )}
          </>
        )}
      </Rows>
      {spans.length > 0 && (
        <p class={css['soft']} role="status">
          {totalInWords(spans)}
        </p>
      )}
    </div>
  );
}

function Breaks({
  breaks,
  onBreaks,
  faultAt,
}: {
  readonly breaks: readonly Times[];
  readonly onBreaks: (breaks: Times[]) => void;
  readonly faultAt: (at: number, field: string) => string | undefined;
}) {
  return (
    <Rows
      legend={texts.pauses}
      what={texts.pause}
      addLabel={texts.addPause}
      rows={breaks}
      onRows={(rows) => onBreaks([...rows])}
      blank={() => ({ from: '12:00', to: '12:30' })}
    >
      {(row, change, at) => (
        <>
          <TextField
            type="time"
            label={texts.from}
            value={row.from}
            onValue={(from) => change({ from })}
            required
            fault={faultAt(at, '') ?? faultAt(at, '.from')}
          />
          <TextField
            type="time"
            label={texts.to}
            value={row.to}
            onValue={(to) => change({ to })}
            required
            fault={faultAt(at, '.to')}
          />
        </>
      )}
    </Rows>
  );
}
