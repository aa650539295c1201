import type { ComponentChildren } from 'preact';
import { useTitle } from '../../frame/title.ts';
import { useYard } from '../../frame/yard.tsx';
import { setUp as texts } from '../../texts/set-up.ts';
import type { Room } from './room.ts';
import css from './set-up.module.css';

/** The frame of a room: the way back, its heading, what stands in it. */
export function RoomPage({
  room,
  title,
  isNarrow = true,
  children,
}: {
  readonly room: Room;
  /** Of one thing in the room; the room itself unless given. */
  readonly title?: string | undefined;
  readonly isNarrow?: boolean;
  readonly children: ComponentChildren;
}) {
  const { id } = useYard();
  const name = title ?? texts.rooms[room];
  useTitle(name);
  const top = `/yards/${id}/set-up`;
  return (
    <div class={`${css['page']} ${isNarrow ? css['narrow'] : ''}`}>
      <nav aria-label={texts.way}>
        <ol class={css['way']}>
          <li>
            <a href={top}>{texts.title}</a>
          </li>
          {title !== undefined && (
            <li>
              <a href={`${top}/${room}`}>{texts.rooms[room]}</a>
            </li>
          )}
        </ol>
      </nav>
      <h1>{name}</h1>
      {children}
    </div>
  );
}
