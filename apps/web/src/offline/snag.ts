import { api, asked } from '../api/client.ts';
import { asWhom } from './as-whom.ts';
import type { SnagRaised } from './deed.ts';
import { changeDeed } from './queue.ts';
import type { QueuedDeed } from './store.ts';

/** A picture takes its time on a weak line. */
const answerMs = 60_000;

/**
 * Raises the snag and sends its photos one after the other; what has arrived is written down, so that
 * it goes on from there. Throws a `Problem`.
 */
export async function sendSnag(queued: QueuedDeed, deed: SnagRaised): Promise<void> {
  let at = queued;
  let raised = deed;
  if (raised.snagId === null) {
    raised = { ...raised, snagId: await raise(queued, raised) };
    at = await changeDeed(at, { deed: raised });
  }
  while (raised.photos.length > 0) {
    await sendPhoto(queued.yardId, raised);
    raised = { ...raised, photos: raised.photos.slice(1) };
    at = await changeDeed(at, { deed: raised });
  }
}

async function raise({ yardId, key, at }: QueuedDeed, { partId, snag }: SnagRaised) {
  const { id } = await asked(
    api.POST('/api/v1/yards/{yardId}/parts/{id}/snags', {
      params: { path: { yardId, id: partId } },
      body: { ...snag, at, sentAt: new Date().toISOString() },
      headers: { 'Idempotency-Key': key, ...asWhom() },
      signal: AbortSignal.timeout(answerMs),
    }),
  );
  return id;
}

async function sendPhoto(yardId: string, { snagId, photos }: SnagRaised): Promise<void> {
  const [{ key, picture }] = photos;
  await asked(
    api.POST('/api/v1/yards/{yardId}/snags/{id}/photos', {
      params: { path: { yardId, id: snagId ?? '' } },
      // The picture itself is the body.
      body: '',
      bodySerializer: () => picture,
      headers: { 'Idempotency-Key': key, 'Content-Type': picture.type, ...asWhom() },
      signal: AbortSignal.timeout(answerMs),
    }),
  );
}
