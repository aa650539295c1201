import type { Schema } from '../../../api/client.ts';
import { ChoiceField } from '../../../form/fields.tsx';
import { useYard } from '../../../frame/yard.tsx';
import { setUp as texts } from '../../../texts/set-up.ts';
import { Needed, NeededMoment } from './numbers.tsx';
import { Rows } from './rows.tsx';
import { tomorrow } from './tomorrow.ts';
import { WeekHours } from './week-hours.tsx';

type Hours = Schema<'Hours'>;
type Absence = Schema<'Absence'>;
type FaultAt = (path: string) => string | undefined;

/** When something may be used; null: always. */
export function UsableHours({
  hours,
  onHours,
  faultAt,
}: {
  readonly hours: readonly Hours[] | null;
  readonly onHours: (hours: Hours[] | null) => void;
  readonly faultAt: FaultAt;
}) {
  return (
    <>
      <ChoiceField
        label={texts.hours.when}
        value={hours === null ? 'always' : 'some'}
        onValue={(value) => onHours(value === 'always' ? null : [])}
        options={[
          { value: 'always', label: texts.hours.always },
          { value: 'some', label: texts.hours.some },
        ]}
      />
      {hours !== null && (
        <WeekHours
          legend={texts.hours.some}
          spans={hours.map((span) => ({ ...span, breaks: [] }))}
          onSpans={(spans) =>
            onHours(spans.map(({ weekday, from, to }) => ({ weekday, from, to })))
          }
          faultAt={(at, field) => faultAt(`hours[${String(at)}]${field === '' ? '' : `.${field}`}`)}
        />
      )}
    </>
  );
}

/** Times for which there are so many fewer. */
export function Absences({
  legend,
  what,
  addLabel,
  path,
  absences,
  onAbsences,
  faultAt,
}: {
  readonly legend: string;
  readonly what: string;
  readonly addLabel: string;
  readonly path: string;
  readonly absences: readonly Absence[];
  readonly onAbsences: (absences: Absence[]) => void;
  readonly faultAt: FaultAt;
}) {
  const { timeZone } = useYard();
  return (
    <Rows
      legend={legend}
      what={what}
      addLabel={addLabel}
      rows={absences}
      onRows={(rows) => onAbsences([...rows])}
      blank={() => ({
        from: tomorrow(timeZone, '08:00'),
        to: tomorrow(timeZone, '17:00'),
        count: 1,
      })}
    >
      {(row, change, at) => {
        const here = `${path}[${String(at)}]`;
        return (
          <>
            <NeededMoment
              label={texts.absence.from}
              value={row.from}
              onValue={(from) => change({ from })}
              fault={faultAt(`${here}.from`)}
            />
            <NeededMoment
              label={texts.absence.to}
              value={row.to}
              onValue={(to) => change({ to })}
              fault={faultAt(`${here}.to`)}
            />
            <Needed
              label={texts.absence.count}
              value={row.count}
              onValue={(count) => change({ count })}
              min={1}
              max={1000}
              step={1}
              fault={faultAt(`${here}.count`)}
            />
          </>
        );
      }}
    </Rows>
  );
}
