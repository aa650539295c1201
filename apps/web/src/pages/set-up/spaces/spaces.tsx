import { quantity } from '../../../show/units.ts';
import { units } from '../../../session/session.ts';
import { listed } from '../../../texts/language.ts';
import { spaces as texts } from '../../../texts/set-up-spaces.ts';
import { RecordRoom } from '../record/record-list.tsx';
import type { RoomOf } from '../record/record-page.tsx';
import { type Space, spaces, type SpaceValues } from './collection.ts';
import { SpaceFields } from './fields.tsx';
import { Forecast } from './forecast.tsx';

function Line({ record: { room, climate, enclosed } }: { readonly record: Space }) {
  const mine = units.value;
  const warmth =
    climate.kind === 'outdoors'
      ? texts.followsOutdoors
      : texts.heated(
          listed(climate.setPoints.map(({ celsius }) => quantity('temperature', celsius, mine))),
        );
  return (
    <>
      {[texts.line(room), warmth, ...(enclosed ? [texts.isEnclosed] : [])].map((words) => (
        <span key={words}>
          {words}
          <br />
        </span>
      ))}
    </>
  );
}

const room: RoomOf<Space, SpaceValues> = {
  room: 'spaces',
  collection: spaces,
  newTitle: texts.isNew,
  Line,
  Fields: SpaceFields,
  Below: Forecast,
};

export default function Spaces() {
  return <RecordRoom of={room} />;
}
