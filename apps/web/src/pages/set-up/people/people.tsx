import { people as texts } from '../../../texts/set-up-people.ts';
import { common } from '../../../texts/common.ts';
import { RecordRoom } from '../record/record-list.tsx';
import type { RoomOf } from '../record/record-page.tsx';
import { daysInWords, totalInWords } from '../rows/hours-words.ts';
import { Access } from './access.tsx';
import { type Person, people, type PersonValues } from './collection.ts';
import { PersonFields } from './fields.tsx';

function Line({ record: { roles, shifts } }: { readonly record: Person }) {
  const is = texts.isFor(roles.map((role) => common.role[role]));
  if (!roles.includes('builder')) return <>{is}</>;
  const days = [...new Set(shifts.map(({ weekday }) => weekday))].sort();
  return (
    <>
      {is}
      <br />
      {shifts.length === 0 ? texts.noHours : `${daysInWords(days)}, ${totalInWords(shifts)}`}
    </>
  );
}

const room: RoomOf<Person, PersonValues> = {
  room: 'people',
  collection: people,
  newTitle: texts.newPerson,
  Line,
  Fields: PersonFields,
  Below: Access,
};

export default function People() {
  return <RecordRoom of={room} />;
}
