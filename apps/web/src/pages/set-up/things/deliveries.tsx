import type { Form } from '../../../form/form.ts';
import { useYard } from '../../../frame/yard.tsx';
import { dayAndClock } from '../../../show/time.ts';
import { things } from '../../../texts/set-up-things.ts';
import { RecordRoom } from '../record/record-list.tsx';
import type { RoomOf } from '../record/record-page.tsx';
import { NeededMoment } from '../rows/numbers.tsx';
import css from '../set-up.module.css';
import { deliveries, type Delivery, type DeliveryValues } from './delivery-collection.ts';

const texts = things.delivery;

function Line({ record }: { readonly record: Delivery }) {
  const { timeZone } = useYard();
  return <>{texts.line(dayAndClock(record.expected, timeZone))}</>;
}

const Fields = ({ form }: { readonly form: Form<DeliveryValues> }) => (
  <>
    <p class={css['soft']}>{texts.hint}</p>
    <NeededMoment {...form.at('expected')} label={texts.expected} />
  </>
);

const room: RoomOf<Delivery, DeliveryValues> = {
  room: 'deliveries',
  collection: deliveries,
  newTitle: texts.isNew,
  Line,
  Fields,
};

export default function Deliveries() {
  return <RecordRoom of={room} />;
}
