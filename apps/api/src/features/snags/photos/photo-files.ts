import { randomUUID } from 'node:crypto';
import { mkdir, open, readdir, readFile, rename, rm, stat } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { Inject, Injectable } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import { type Config, configToken } from '../../../platform/config/config.ts';
import type { Picture } from './picture.ts';

export type PhotoSize = 'whole' | 'small';

const suffix: Readonly<Record<PhotoSize, string>> = { whole: '', small: '.small' };
const unfinished = '.part';

/**
 * Pictures as files, outside the database: `<yard>/<photo>` and `<yard>/<photo>.small`. A file is
 * whole and on the disk before it has its name, and its row is written after that; so there is no
 * row without its picture, and at worst a file without a row, which `orphans` finds.
 */
@Injectable()
export class PhotoFiles {
  readonly #folder: string;

  constructor(@Inject(configToken) { photoFolder }: Config) {
    this.#folder = photoFolder;
  }

  /** Throws service.unavailable where the disk does not take it; nothing of it is left then. */
  async write(yardId: string, id: string, { bytes, small }: Picture): Promise<void> {
    try {
      await this.#put(this.#path(yardId, id, 'whole'), bytes);
      await this.#put(this.#path(yardId, id, 'small'), small);
      await syncFolder(join(this.#folder, yardId));
      // The yard's first picture made its folder.
      await syncFolder(this.#folder);
    } catch (error) {
      await this.remove(yardId, id);
      throw new DomainError(
        'service.unavailable',
        'The picture could not be written to the disk.',
        {
          cure:
            error instanceof Error && 'code' in error && error.code === 'ENOSPC'
              ? 'The disk of the service is full: make room, then send the picture again.'
              : 'Send the picture again shortly.',
        },
      );
    }
  }

  /** Throws record.missing where there is no such file. */
  async read(yardId: string, id: string, size: PhotoSize): Promise<Buffer> {
    try {
      return await readFile(this.#path(yardId, id, size));
    } catch {
      throw new DomainError('record.missing', `The picture "${id}" is not there any more.`);
    }
  }

  async remove(yardId: string, id: string): Promise<void> {
    for (const size of ['whole', 'small'] as const)
      await rm(this.#path(yardId, id, size), { force: true });
  }

  /** Yards that have pictures. */
  async yards(): Promise<string[]> {
    const found = await readdir(this.#folder, { withFileTypes: true }).catch(() => []);
    return found.filter((entry) => entry.isDirectory()).map(({ name }) => name);
  }

  /** Photos of a yard with a file that is older than so many ms: one just written may get its row yet. */
  async olderThan(yardId: string, ms: number): Promise<string[]> {
    const folder = join(this.#folder, yardId);
    const names = await readdir(folder).catch(() => []);
    const found = new Set<string>();
    for (const name of names) {
      const info = await stat(join(folder, name)).catch(() => null);
      if (info === null || Date.now() - info.mtimeMs < ms) continue;
      if (name.endsWith(unfinished)) await rm(join(folder, name), { force: true });
      else found.add(name.replace(suffix.small, ''));
    }
    return [...found];
  }

  #path(yardId: string, id: string, size: PhotoSize): string {
    return join(this.#folder, yardId, `${id}${suffix[size]}`);
  }

  async #put(path: string, bytes: Buffer): Promise<void> {
    await mkdir(dirname(path), { recursive: true, mode: 0o700 });
    const draft = `${path}.${randomUUID()}${unfinished}`;
    try {
      const file = await open(draft, 'wx', 0o600);
      try {
        await file.writeFile(bytes);
        await file.sync();
      } finally {
        await file.close();
      }
      await rename(draft, path);
    } catch (error) {
      await rm(draft, { force: true });
      throw error;
    }
  }
}

/** A name is on the disk once its folder is; some systems do not let folders be synced. */
async function syncFolder(path: string): Promise<void> {
  const folder = await open(path, 'r').catch(() => null);
  if (folder === null) return;
  try {
    await folder.sync();
  } catch {
    return;
  } finally {
    await folder.close();
  }
}
