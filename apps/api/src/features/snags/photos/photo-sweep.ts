import {
  Injectable,
  Logger,
  type OnApplicationBootstrap,
  type OnApplicationShutdown,
} from '@nestjs/common';
import { Database } from '../../../platform/database/database.ts';
import { isUuid } from '../../../platform/database/uuid.ts';
import { PhotoFiles } from './photo-files.ts';

const hour = 60 * 60_000;

/** Takes away pictures without a row: of a process that died between the two, or of a photo that was removed. */
@Injectable()
export class PhotoSweep implements OnApplicationBootstrap, OnApplicationShutdown {
  readonly #log = new Logger('photos');
  #timer: NodeJS.Timeout | undefined;

  constructor(
    private readonly files: PhotoFiles,
    private readonly database: Database,
  ) {}

  onApplicationBootstrap(): void {
    this.#timer = setInterval(() => void this.#tried(), hour).unref();
  }

  onApplicationShutdown(): void {
    clearInterval(this.#timer);
  }

  /** Files that are older than so long. Gives how many photos went. */
  async sweep(olderThanMs = hour): Promise<number> {
    let gone = 0;
    for (const yardId of await this.files.yards()) {
      const ids = (await this.files.olderThan(yardId, olderThanMs)).filter(isUuid);
      if (ids.length === 0) continue;
      const rows = await this.database.asService(yardId, (tx) =>
        tx.snagPhoto.findMany({ where: { yardId, id: { in: ids } }, select: { id: true } }),
      );
      const kept = new Set(rows.map(({ id }) => id));
      for (const id of ids) {
        if (kept.has(id)) continue;
        await this.files.remove(yardId, id);
        gone += 1;
      }
    }
    return gone;
  }

  async #tried(): Promise<void> {
    try {
      const gone = await this.sweep();
      if (gone > 0) this.#log.log(`took away ${String(gone)} pictures without a record`);
    } catch (error) {
      this.#log.warn(`pictures were not looked through: ${String(error)}`);
    }
  }
}
