import { myBoat as texts } from '../../texts/my-boat.ts';
import css from './my-boat.module.css';
import type { MyBoat } from './readings.ts';
import { Heading, type Level } from './section.tsx';

/** Why it may have to wait: when the places that its work needs are taken, not by whom. */
export function Spaces({ boat, level }: { readonly boat: MyBoat; readonly level: Level }) {
  if (boat.spaces.length === 0) return null;
  return (
    <details class={css['details']}>
      <summary>{texts.spaces}</summary>
      {boat.spaces.map(({ id, name, taken }) => (
        <div key={id}>
          <Heading level={level}>{name}</Heading>
          {taken.length === 0 ? (
            <p>{texts.spaceFree}</p>
          ) : (
            <ul class={css['lines']}>
              {taken.map(({ from, taskId, words }) => (
                <li key={`${from.at} ${taskId ?? ''}`}>{words}</li>
              ))}
            </ul>
          )}
        </div>
      ))}
    </details>
  );
}
