import type { Form } from '../../../form/form.ts';
import { things } from '../../../texts/set-up-things.ts';
import { RecordRoom } from '../record/record-list.tsx';
import type { RoomOf } from '../record/record-page.tsx';
import { Needed } from '../rows/numbers.tsx';
import { Absences, UsableHours } from '../rows/usable.tsx';
import css from '../set-up.module.css';
import { type Tool, tools, type ToolValues } from './tool-collection.ts';

const texts = things.tool;

function Fields({ form }: { readonly form: Form<ToolValues> }) {
  const { values, set, faultAt } = form;
  return (
    <>
      <p class={css['soft']}>{texts.hint}</p>
      <Needed {...form.at('count')} label={texts.count} min={1} max={1000} step={1} />
      <Absences
        legend={texts.away}
        what={texts.awayWhat}
        addLabel={texts.addAway}
        path="away"
        absences={values.away}
        onAbsences={(away) => set('away', away)}
        faultAt={faultAt}
      />
      <UsableHours
        hours={values.hours}
        onHours={(hours) => set('hours', hours)}
        faultAt={faultAt}
      />
    </>
  );
}

const room: RoomOf<Tool, ToolValues> = {
  room: 'tools',
  collection: tools,
  newTitle: texts.isNew,
  Line: ({ record }) => <>{texts.line(record.count)}</>,
  Fields,
};

export default function Tools() {
  return <RecordRoom of={room} />;
}
