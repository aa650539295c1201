import { freshKey } from '../../../api/fresh-key.ts';
import type { Photo } from '../../../offline/deed.ts';

/** The longer side of what is sent; the service keeps 2560 at most, a phone's line is slow. */
const longest = 2000;
const quality = 0.82;

/** A picture from the camera, upright and small enough to be sent. Throws where it is none. */
export async function shrink(file: Blob): Promise<Photo> {
  const bitmap = await createImageBitmap(file, { imageOrientation: 'from-image' });
  const scale = Math.min(1, longest / Math.max(bitmap.width, bitmap.height));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(bitmap.width * scale));
  canvas.height = Math.max(1, Math.round(bitmap.height * scale));
  canvas.getContext('2d')?.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
  bitmap.close();
  const picture = await new Promise<Blob | null>((resolve) => {
    canvas.toBlob(resolve, 'image/jpeg', quality);
  });
  if (picture === null) throw new Error('the picture cannot be written');
  return { key: freshKey(), picture };
}
