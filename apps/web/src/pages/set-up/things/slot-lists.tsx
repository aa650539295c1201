import { CheckField, ChoiceField } from '../../../form/fields.tsx';
import type { Form } from '../../../form/form.ts';
import { useYard } from '../../../frame/yard.tsx';
import { things } from '../../../texts/set-up-things.ts';
import { RecordRoom } from '../record/record-list.tsx';
import type { RoomOf } from '../record/record-page.tsx';
import { MoneyField, Needed, NeededMoment } from '../rows/numbers.tsx';
import { Rows } from '../rows/rows.tsx';
import { tomorrow } from '../rows/tomorrow.ts';
import css from '../set-up.module.css';
import { type SlotList, slotLists, type SlotListValues } from './slot-list-collection.ts';

const texts = things.slot;
const kinds = ['crane', 'tide', 'truck', 'surveyor', 'subcontractor'] as const;

function Fields({ form }: { readonly form: Form<SlotListValues> }) {
  const { timeZone } = useYard();
  const { values, set, faultAt } = form;
  return (
    <>
      <p class={css['soft']}>{texts.hint}</p>
      <ChoiceField
        label={texts.kind}
        value={values.kind}
        onValue={(chosen) => {
          const kind = kinds.find((one) => one === chosen);
          if (kind !== undefined) set('kind', kind);
        }}
        options={kinds.map((value) => ({ value, label: texts.kinds[value] }))}
        fault={faultAt('kind')}
      />
      <Rows
        legend={texts.slots}
        what={texts.slot}
        addLabel={texts.add}
        rows={values.slots}
        onRows={(rows) => set('slots', [...rows])}
        blank={() => ({
          from: tomorrow(timeZone, '08:00', 7),
          to: tomorrow(timeZone, '12:00', 7),
          price: values.slots.at(-1)?.price ?? 0,
          noticeHours: values.slots.at(-1)?.noticeHours ?? 24,
          booked: false,
        })}
      >
        {(row, change, at) => {
          const path = `slots[${String(at)}]`;
          return (
            <>
              <NeededMoment
                label={texts.from}
                value={row.from}
                onValue={(from) => change({ from })}
                fault={faultAt(`${path}.from`)}
              />
              <NeededMoment
                label={texts.to}
                value={row.to}
                onValue={(to) => change({ to })}
                fault={faultAt(`${path}.to`)}
              />
              <MoneyField
                label={texts.price}
                value={row.price}
                onValue={(price) => change({ price })}
                fault={faultAt(`${path}.price`)}
              />
              <Needed
                label={texts.notice}
                unit={texts.hours}
                min={0}
                step={1}
                value={row.noticeHours}
                onValue={(noticeHours) => change({ noticeHours })}
                fault={faultAt(`${path}.noticeHours`)}
              />
              <CheckField
                label={texts.booked}
                value={row.booked}
                onValue={(booked) => change({ booked })}
              />
            </>
          );
        }}
      </Rows>
    </>
  );
}

const room: RoomOf<SlotList, SlotListValues> = {
  room: 'slot-lists',
  collection: slotLists,
  newTitle: texts.isNew,
  Line: ({ record: { kind, slots } }) => <>{texts.line(texts.kinds[kind], slots.length)}</>,
  Fields,
};

export default function SlotLists() {
  return <RecordRoom of={room} />;
}
