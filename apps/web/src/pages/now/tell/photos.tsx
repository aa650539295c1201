import { useEffect, useId, useMemo, useState } from 'preact/hooks';
import { Button, Notice } from '../../../looks/looks.tsx';
import type { Photo } from '../../../offline/deed.ts';
import { common } from '../../../texts/common.ts';
import { now as texts } from '../../../texts/now.ts';
import css from '../now.module.css';
import own from './tell.module.css';
import { shrink } from './shrink.ts';

/** Photos that are taken now, or chosen, each with a way to leave it out again. */
export function Photos({
  photos,
  onPhotos,
}: {
  readonly photos: readonly Photo[];
  readonly onPhotos: (photos: readonly Photo[]) => void;
}) {
  const id = useId();
  const [isBusy, setBusy] = useState(false);
  const [unreadable, setUnreadable] = useState<string | null>(null);
  const take = async (files: readonly File[]): Promise<void> => {
    setBusy(true);
    setUnreadable(null);
    const taken: Photo[] = [];
    for (const file of files) {
      try {
        taken.push(await shrink(file));
      } catch {
        setUnreadable(file.name);
      }
    }
    onPhotos([...photos, ...taken]);
    setBusy(false);
  };
  return (
    <div class={own['photos']} role="group" aria-labelledby={`${id}-name`}>
      <span id={`${id}-name`} class={css['name']}>
        {texts.snag.photos}
      </span>
      <label class={own['camera']} for={id}>
        {isBusy ? common.loading : texts.snag.add}
      </label>
      <input
        id={id}
        class={own['file']}
        type="file"
        accept="image/*"
        capture="environment"
        multiple
        disabled={isBusy}
        onChange={(event) => {
          const field = event.currentTarget;
          const files = [...(field.files ?? [])];
          field.value = '';
          void take(files);
        }}
      />
      {unreadable !== null && (
        <Notice tone="harm" isNews>
          <p>{texts.snag.unreadable(unreadable)}</p>
        </Notice>
      )}
      {photos.length > 0 && (
        <ul class={own['pictures']}>
          {photos.map((photo, k) => (
            <li key={photo.key}>
              <Picture photo={photo} words={texts.snag.photo(k + 1)} />
              <Button
                label={texts.snag.removePhoto(k + 1)}
                onPress={() => onPhotos(photos.filter(({ key }) => key !== photo.key))}
              >
                {common.remove}
              </Button>
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}

function Picture({ photo: { picture }, words }: { readonly photo: Photo; readonly words: string }) {
  const address = useMemo(() => URL.createObjectURL(picture), [picture]);
  useEffect(() => () => URL.revokeObjectURL(address), [address]);
  return <img class={own['picture']} src={address} alt={words} />;
}
