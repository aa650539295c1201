import { createHash, randomUUID } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import type { Viewer } from '../../../platform/access/viewer.ts';
import { Database, type Tx } from '../../../platform/database/database.ts';
import { appendEvent } from '../../../platform/database/events.ts';
import { isUuid } from '../../../platform/database/uuid.ts';
import type { SnagPhoto } from '../snags.contract.ts';
import { findSnag, type PhotoRow, showPhoto } from '../snags.store.ts';
import { PhotoFiles, type PhotoSize } from './photo-files.ts';
import { readPicture } from './picture.ts';

/** Of one snag. */
const mostPhotos = 40;

interface PhotoBytes {
  readonly photo: PhotoRow;
  readonly bytes: Buffer;
}

@Injectable()
export class PhotosService {
  constructor(
    private readonly database: Database,
    private readonly files: PhotoFiles,
  ) {}

  /** The picture is on the disk before its row; where the row is refused, it goes again. */
  async add(
    viewer: Viewer,
    snagId: string,
    sent: unknown,
    contentType: string | undefined,
  ): Promise<SnagPhoto> {
    const { yardId, memberId } = viewer;
    await this.database.inYard(viewer, (tx) => hasRoom(tx, yardId, snagId));
    const picture = await readPicture(sent, contentType);
    const id = randomUUID();
    await this.files.write(yardId, id, picture);
    let answer: SnagPhoto;
    try {
      answer = await this.database.inYard(viewer, async (tx) => {
        await hasRoom(tx, yardId, snagId);
        const { mediaType, width, height, bytes } = picture;
        const row = await tx.snagPhoto.create({
          data: {
            yardId,
            id,
            snagId,
            mediaType,
            width,
            height,
            bytes: bytes.length,
            sha256: new Uint8Array(createHash('sha256').update(bytes).digest()),
            addedById: memberId,
          },
        });
        await appendEvent(tx, viewer, 'photo-added', 'photo', id, { snagId });
        return showPhoto(row, viewer);
      });
    } catch (error) {
      // Where the database went away nobody knows whether the row is there: then the sweep looks.
      if (error instanceof DomainError) await this.files.remove(yardId, id);
      throw error;
    }
    // A repetition under the same key was answered with the first one's picture.
    if (answer.id !== id) await this.files.remove(yardId, id);
    return answer;
  }

  async read(viewer: Viewer, id: string, size: PhotoSize): Promise<PhotoBytes> {
    const photo = await this.database.inYard(viewer, (tx) => findPhoto(tx, viewer.yardId, id));
    return { photo, bytes: await this.files.read(viewer.yardId, id, size) };
  }

  /** By whoever added it, and by the foreman. */
  async remove(viewer: Viewer, id: string): Promise<void> {
    const { yardId, memberId, roles } = viewer;
    await this.database.inYard(viewer, async (tx) => {
      const { addedById, snagId } = await findPhoto(tx, yardId, id);
      if (addedById !== memberId && !roles.includes('foreman'))
        throw new DomainError(
          'access.role',
          'Only whoever added a picture, or the foreman, takes it away.',
        );
      await tx.snagPhoto.deleteMany({ where: { yardId, id } });
      await appendEvent(tx, viewer, 'photo-removed', 'photo', id, { snagId });
    });
    await this.files.remove(yardId, id);
  }
}

async function hasRoom(tx: Tx, yardId: string, snagId: string): Promise<void> {
  const snag = await findSnag(tx, yardId, snagId);
  if (snag.photos.length < mostPhotos) return;
  throw new DomainError(
    'input.limit',
    `The snag has ${String(mostPhotos)} pictures: no more are kept.`,
    {
      cure: 'Take one away first.',
    },
  );
}

async function findPhoto(tx: Tx, yardId: string, id: string): Promise<PhotoRow> {
  const row = isUuid(id)
    ? await tx.snagPhoto.findUnique({ where: { yardId_id: { yardId, id } } })
    : null;
  if (!row) throw new DomainError('record.missing', `There is no photo "${id}".`);
  return row;
}
