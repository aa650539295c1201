import { useYard } from '../../frame/yard.tsx';
import { ButtonLink, Panel, Row } from '../../looks/looks.tsx';
import { dateIn, dayAndClock } from '../../show/time.ts';
import { money } from '../../show/units.ts';
import { desk as texts } from '../../texts/desk.ts';
import { Detail, Facts } from './detail.tsx';
import { useBookings } from './readings.ts';
import type { Booking } from './waiting.ts';

/** A chance of the outside world that the plan takes and nobody has booked. */
export function BookingPage({ id }: { readonly id: string }) {
  const { id: yardId, timeZone: zone, currency } = useYard();
  const { data, ...read } = useBookings(yardId);
  const found = data === undefined ? undefined : (data.find(({ taskId }) => taskId === id) ?? null);
  return (
    <Detail<Booking>
      kind="booking"
      title={({ slot }) => texts.booking.title(slot.list)}
      read={{ ...read, data: found }}
    >
      {({ task, part, boat, slot }) => (
        <Panel>
          <Facts
            rows={[
              [texts.booking.for, texts.work(task, part, boat)],
              [
                texts.booking.when,
                texts.booking.span(
                  dayAndClock(slot.from.at, zone),
                  dayAndClock(slot.until.at, zone),
                ),
              ],
              ...(slot.bookBy === null
                ? []
                : [[texts.booking.bookBy, dayAndClock(slot.bookBy.at, zone)] as const]),
              [texts.booking.price, money(slot.price, currency)],
            ]}
          />
          <p>{texts.booking.hint}</p>
          <Row>
            <ButtonLink
              kind="do"
              to={`/yards/${yardId}/set-up/slot-lists/${encodeURIComponent(slot.listId)}`}
            >
              {texts.booking.toList}
            </ButtonLink>
            <ButtonLink to={`/yards/${yardId}/week?from=${dateIn(slot.from.at, zone)}`}>
              {texts.booking.toWeek}
            </ButtonLink>
          </Row>
        </Panel>
      )}
    </Detail>
  );
}
