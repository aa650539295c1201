import { Photos } from '../../deciding/photos.tsx';
import { useYard } from '../../frame/yard.tsx';
import { Panel } from '../../looks/looks.tsx';
import { day } from '../../show/time.ts';
import { myBoat as texts } from '../../texts/my-boat.ts';
import css from './my-boat.module.css';
import type { Whole } from './readings.ts';
import { Heading, type Level, titleOf } from './section.tsx';

/** What was found on the boat, as far as the yard shows it, with its photos. */
export function Found({
  whole: { boat, snags },
  level,
}: {
  readonly whole: Whole;
  readonly level: Level;
}) {
  const { timeZone: zone } = useYard();
  return (
    <Panel title={titleOf(texts.photos, boat.name, level)} level={level}>
      {snags.length === 0 && <p>{texts.noPhotos}</p>}
      {snags.map((snag) => (
        <article key={snag.id} class={css['found']}>
          <Heading level={level === 2 ? 3 : 4}>{texts.found(snag.kindName, snag.partName)}</Heading>
          <p>{snag.words}</p>
          <p class={css['soft']}>
            {texts.foundAt(day(snag.foundAt, zone))} {texts.snagStates[snag.state]}
          </p>
          {snag.note !== '' && <p>{snag.note}</p>}
          <Photos snag={snag} />
        </article>
      ))}
    </Panel>
  );
}
