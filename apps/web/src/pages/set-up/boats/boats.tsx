import { useParam } from '../../../frame/params.ts';
import { useYard } from '../../../frame/yard.tsx';
import { day } from '../../../show/time.ts';
import { boats as texts } from '../../../texts/boats.ts';
import { RecordRoom } from '../record/record-list.tsx';
import { newId, type RoomOf } from '../record/record-page.tsx';
import { BoatFields } from './boat-fields.tsx';
import { BoatPage } from './boat-page.tsx';
import { type Boat, boatCollection, type BoatValues } from './requests.ts';

const room: RoomOf<Boat, BoatValues> = {
  room: 'boats',
  collection: boatCollection,
  newTitle: texts.isNew,
  Line: BoatLine,
  Fields: BoatFields,
};

/** Boats with their refits, parts and jobs: all of them, or one. */
export default function Boats() {
  const id = useParam('id');
  return id === '' || id === newId ? <RecordRoom of={room} /> : <BoatPage key={id} id={id} />;
}

function BoatLine({ record }: { readonly record: Boat }) {
  const { timeZone } = useYard();
  const { refits } = record;
  if (refits.length === 0) return <>{texts.noRefits}</>;
  const promised = refits.flatMap((refit) => refit.promised ?? []).toSorted();
  const count = texts.line(refits.length);
  return (
    <>{promised.length === 0 ? count : texts.linePromised(count, day(promised[0], timeZone))}</>
  );
}
