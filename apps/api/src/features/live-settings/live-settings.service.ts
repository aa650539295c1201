import { Injectable } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database, type Tx } from '../../platform/database/database.ts';
import { appendEvent } from '../../platform/database/events.ts';
import { changedOne } from '../../platform/etag/revision.ts';
import { patched } from '../../platform/shapes/layers.ts';
import type { LiveSettings, LiveSettingsPatch } from './live-settings.contract.ts';

/** How the yard handles work that is under way. */
@Injectable()
export class LiveSettingsService {
  constructor(private readonly database: Database) {}

  get(viewer: Viewer): Promise<LiveSettings> {
    return this.database.inYard(viewer, (tx) => find(tx, viewer));
  }

  /** Claims that are held keep the time that they were given. */
  update(viewer: Viewer, revision: number, patch: LiveSettingsPatch): Promise<LiveSettings> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      const { undoMinutes, leaseSeconds, publishMovesUpTo } = patched(
        await find(tx, viewer),
        patch,
      );
      const data = { undoMinutes, leaseSeconds, publishMovesUpTo };
      changedOne(await tx.yard.updateMany({ where: { id: yardId, revision }, data }));
      await appendEvent(tx, viewer, 'live-settings-changed', 'yard', yardId, data);
      return find(tx, viewer);
    });
  }
}

async function find(tx: Tx, { yardId }: Viewer): Promise<LiveSettings> {
  const yard = await tx.yard.findUnique({
    where: { id: yardId },
    select: { undoMinutes: true, leaseSeconds: true, publishMovesUpTo: true, revision: true },
  });
  if (!yard) throw new DomainError('record.missing', 'There is no such yard.');
  return yard;
}
