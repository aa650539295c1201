import { useRoute } from 'preact-iso/router';
import { materials as texts } from '../../../texts/materials.ts';
import { RecordRoom } from '../record/record-list.tsx';
import { newId, type RoomOf } from '../record/record-page.tsx';
import { useClasses } from './classes.ts';
import { type Material, materialCollection, type MaterialValues } from './material-collection.ts';
import { MaterialFields } from './material-fields.tsx';
import { MaterialPage } from './material-page.tsx';

const room: RoomOf<Material, MaterialValues> = {
  room: 'materials',
  collection: materialCollection,
  newTitle: texts.newMaterial,
  Line: MaterialLine,
  Fields: MaterialFields,
};

/** What is mixed and cures: all of it, or one of them. */
export default function Materials() {
  const { id = '' } = useRoute().params;
  return id === '' || id === newId ? <RecordRoom of={room} /> : <MaterialPage key={id} id={id} />;
}

function MaterialLine({ record }: { readonly record: Material }) {
  const classes = useClasses();
  const found = classes.data?.find(({ id }) => id === record.classId);
  const what = found?.name ?? `${texts.bases[record.resinSystem]}, ${texts.list.classless}`;
  const use = record.use ?? found?.use ?? 'laminating';
  return <>{texts.list.line(what, texts.uses[use])}</>;
}
