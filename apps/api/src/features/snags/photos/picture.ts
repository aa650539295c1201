import sharp, { type OutputInfo, type Sharp } from 'sharp';
import { DomainError, fault } from '#kernel/error.ts';

/** What a picture may be sent as, and is kept as. */
export const mediaTypes = ['image/jpeg', 'image/png', 'image/webp'] as const;
type MediaType = (typeof mediaTypes)[number];

/** A phone's best is some fifty millions; decoding more would take the memory of others. */
const pixelLimit = 120_000_000;
/** The longer side of what is kept, and of its small copy for lists. */
const longest = 2560;
const smallest = 480;
const seconds = 20;

/** One picture at a time uses one thread of libvips, and what was decoded is not kept. */
sharp.concurrency(1);
sharp.cache(false);

const formats: Readonly<Record<MediaType, 'jpeg' | 'png' | 'webp'>> = {
  'image/jpeg': 'jpeg',
  'image/png': 'png',
  'image/webp': 'webp',
};

export interface Picture {
  readonly mediaType: MediaType;
  readonly width: number;
  readonly height: number;
  readonly bytes: Buffer;
  /** A copy for lists, of the same type. */
  readonly small: Buffer;
}

const mediaTypeOf = (sent: string | undefined): MediaType | undefined =>
  mediaTypes.find((type) => type === sent?.split(';', 1)[0].trim().toLowerCase());

function refused(path: string, message: string, value?: unknown): DomainError {
  const wrong = fault('snag.photo', path, message, value === undefined ? {} : { value });
  return new DomainError('snag.photo', message, { faults: [wrong] });
}

/**
 * Decodes what was sent, turns it upright by its Exif orientation and encodes it anew: so it is a
 * picture and nothing besides, without the place, time and device that a camera writes into it.
 * Throws snag.photo for anything that is not a whole picture of the type that it says it is.
 */
export async function readPicture(
  sent: unknown,
  contentType: string | undefined,
): Promise<Picture> {
  const mediaType = mediaTypeOf(contentType);
  if (mediaType === undefined || !Buffer.isBuffer(sent))
    throw refused(
      'content-type',
      'It is not sent as a JPEG, PNG or WebP picture',
      contentType ?? '',
    );
  if (sent.length === 0) throw refused('body', 'The picture is empty');
  const format = await formatOf(sent);
  if (format !== formats[mediaType])
    throw refused('content-type', `It is sent as ${mediaType}, and is ${format}`, contentType);
  try {
    const kept = await encoded(sent, mediaType, longest);
    const small = await encoded(sent, mediaType, smallest);
    const { width, height } = kept.info;
    return { mediaType, width, height, bytes: kept.data, small: small.data };
  } catch (error) {
    throw refused('body', `The picture cannot be decoded: ${reason(error)}`);
  }
}

/** What it really is, by its first bytes; its size is known before any of it is decoded. */
async function formatOf(sent: Buffer): Promise<string> {
  try {
    const { format, width, height } = await opened(sent).metadata();
    if (width * height > pixelLimit)
      throw refused(
        'body',
        `The picture has ${String(width)} × ${String(height)} points: too many`,
      );
    return format;
  } catch (error) {
    if (error instanceof DomainError) throw error;
    throw refused('body', `What was sent is no picture: ${reason(error)}`);
  }
}

const opened = (sent: Buffer): Sharp =>
  sharp(sent, { failOn: 'truncated', limitInputPixels: pixelLimit, pages: 1 });

function encoded(
  sent: Buffer,
  mediaType: MediaType,
  side: number,
): Promise<{ data: Buffer; info: OutputInfo }> {
  const upright = opened(sent)
    .rotate()
    .resize({ width: side, height: side, fit: 'inside', withoutEnlargement: true })
    .timeout({ seconds });
  const quality = { quality: 85 };
  const made =
    mediaType === 'image/jpeg'
      ? upright.jpeg(quality)
      : mediaType === 'image/png'
        ? upright.png()
        : upright.webp(quality);
  return made.toBuffer({ resolveWithObject: true });
}

/** The library's words, one line, without any path. */
const reason = (error: unknown): string =>
  (error instanceof Error ? error.message : 'unknown').split('\n', 1)[0].slice(0, 120);
