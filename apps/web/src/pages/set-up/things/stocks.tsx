import { TextField } from '../../../form/fields.tsx';
import type { Form } from '../../../form/form.ts';
import { number } from '../../../show/units.ts';
import { things } from '../../../texts/set-up-things.ts';
import { RecordRoom } from '../record/record-list.tsx';
import type { RoomOf } from '../record/record-page.tsx';
import { Needed } from '../rows/numbers.tsx';
import css from '../set-up.module.css';
import { type Stock, stocks, type StockValues } from './stock-collection.ts';

const texts = things.stock;

const Fields = ({ form }: { readonly form: Form<StockValues> }) => (
  <>
    <p class={css['soft']}>{texts.hint}</p>
    <div class={css['cols']}>
      <TextField
        {...form.at('unit')}
        label={texts.unit}
        hint={texts.unitHint}
        required
        maxLength={20}
      />
      <Needed {...form.at('total')} label={texts.total} min={0} max={1_000_000} />
    </div>
  </>
);

const room: RoomOf<Stock, StockValues> = {
  room: 'stocks',
  collection: stocks,
  newTitle: texts.isNew,
  Line: ({ record: { total, unit } }) => <>{texts.line(number(total), unit)}</>,
  Fields,
};

export default function Stocks() {
  return <RecordRoom of={room} />;
}
