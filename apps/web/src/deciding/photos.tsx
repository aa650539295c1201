import type { Schema } from '../api/client.ts';
import { useYard } from '../frame/yard.tsx';
import { day } from '../show/time.ts';
import { deciding as texts } from '../texts/deciding.ts';
import css from './deciding.module.css';

/** The photos of a snag, small; each leads to the whole of it. */
export function Photos({
  snag: { photos, kindName, partName, foundAt },
}: {
  readonly snag: Pick<Schema<'Snag'>, 'photos' | 'kindName' | 'partName' | 'foundAt'>;
}) {
  const { id: yardId, timeZone: zone } = useYard();
  if (photos.length === 0) return null;
  return (
    <ul class={css['photos']} aria-label={texts.photos}>
      {photos.map(({ id, width, height }, at) => {
        const address = `/api/v1/yards/${encodeURIComponent(yardId)}/photos/${id}`;
        return (
          <li key={id}>
            <a href={address} target="_blank" rel="noreferrer" title={texts.open}>
              <img
                class={css['photo']}
                src={`${address}?size=small`}
                width={width}
                height={height}
                loading="lazy"
                alt={texts.photo(at + 1, photos.length, kindName, partName, day(foundAt, zone))}
              />
            </a>
          </li>
        );
      })}
    </ul>
  );
}
