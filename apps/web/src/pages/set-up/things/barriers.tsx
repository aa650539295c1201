import { ChoiceField } from '../../../form/fields.tsx';
import type { Form } from '../../../form/form.ts';
import { useYard } from '../../../frame/yard.tsx';
import { ProblemNotice } from '../../../looks/looks.tsx';
import { things } from '../../../texts/set-up-things.ts';
import { useList } from '../lists/lists.ts';
import { RecordRoom } from '../record/record-list.tsx';
import type { RoomOf } from '../record/record-page.tsx';
import { Rows } from '../rows/rows.tsx';
import css from '../set-up.module.css';
import { type Barrier, barriers, type BarrierValues } from './barrier-collection.ts';

const texts = things.barrier;

function Fields({ form }: { readonly form: Form<BarrierValues> }) {
  const { id } = useYard();
  const { data: spaces, problem, again } = useList('spaces');
  const { values, set, faultAt } = form;
  const nameOf = (space: string): string => spaces?.find((one) => one.id === space)?.name ?? space;
  // What it may bar: ways that dust goes, and what stands there already.
  const between = (spaces ?? []).flatMap((space) =>
    space.dustReaches.filter((to) => to !== space.id).map((to) => ({ from: space.id, to })),
  );
  const ways = [
    ...between,
    ...values.blocks.filter(
      ({ from, to }) => !between.some((way) => way.from === from && way.to === to),
    ),
  ];
  const first = ways.at(0);
  return (
    <>
      <p class={css['soft']}>{texts.hint}</p>
      <ProblemNotice problem={problem} again={again} />
      <ChoiceField
        label={texts.stands}
        value={values.closed ? 'closed' : 'open'}
        onValue={(value) => set('closed', value === 'closed')}
        options={[
          { value: 'open', label: texts.open },
          { value: 'closed', label: texts.closed },
        ]}
      />
      {spaces !== undefined && first === undefined && (
        <p>
          {texts.noWays} <a href={`/yards/${id}/set-up/spaces`}>{texts.toSpaces}</a>
        </p>
      )}
      {first !== undefined && (
        <Rows
          legend={texts.ways}
          what={texts.way}
          addLabel={texts.addWay}
          rows={values.blocks}
          onRows={(rows) => set('blocks', [...rows])}
          blank={() => first}
          fault={faultAt('blocks')}
        >
          {(row, change, at) => {
            const path = `blocks[${String(at)}]`;
            return (
              <ChoiceField
                label={texts.way}
                value={`${row.from}/${row.to}`}
                onValue={(value) => {
                  const chosen = ways.find((way) => `${way.from}/${way.to}` === value);
                  if (chosen !== undefined) change(chosen);
                }}
                options={ways.map(({ from, to }) => ({
                  value: `${from}/${to}`,
                  label: texts.between(nameOf(from), nameOf(to)),
                }))}
                fault={faultAt(path) ?? faultAt(`${path}.from`) ?? faultAt(`${path}.to`)}
              />
            );
          }}
        </Rows>
      )}
    </>
  );
}

const room: RoomOf<Barrier, BarrierValues> = {
  room: 'barriers',
  collection: barriers,
  newTitle: texts.isNew,
  Line: ({ record }) => <>{texts.line(record.blocks.length)}</>,
  Fields,
};

export default function Barriers() {
  return <RecordRoom of={room} />;
}
