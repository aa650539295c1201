import { useParam } from '../../frame/params.ts';
import { Refusal } from '../../frame/refusal.tsx';
import { common } from '../../texts/common.ts';
import { Overview } from './overview/overview.tsx';
import { isRoom, rooms } from './rooms.ts';

/** What the yard is: its rooms, or one of them. */
export default function SetUp() {
  const room = useParam('room');
  if (room === '') return <Overview />;
  if (!isRoom(room)) return <Refusal title={common.notFound} cure={common.notFoundCure} />;
  const { Page } = rooms[room];
  return <Page key={room} />;
}
