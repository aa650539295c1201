import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { extname, join, sep } from 'node:path';

/** A file of the screens as it is sent, with the forms that were compressed when they were built. */
export interface ScreenFile {
  readonly type: string;
  readonly text: Buffer;
  readonly br: Buffer | undefined;
  readonly gzip: Buffer | undefined;
  /** A strong validator (RFC 9110, 8.8.3), without the form. */
  readonly tag: string;
  /** Its name holds a hash of what is in it. */
  readonly isHashed: boolean;
}

export interface Screens {
  /** What stands at every address of a page. */
  readonly page: ScreenFile;
  /** By address. */
  readonly files: ReadonlyMap<string, ScreenFile>;
}

const types: ReadonlyMap<string, string> = new Map([
  ['.html', 'text/html; charset=utf-8'],
  ['.css', 'text/css; charset=utf-8'],
  ['.js', 'text/javascript; charset=utf-8'],
  ['.json', 'application/json; charset=utf-8'],
  ['.svg', 'image/svg+xml'],
  ['.png', 'image/png'],
  ['.webmanifest', 'application/manifest+json'],
]);

const page = 'index.html';

/**
 * All files of a build, in memory: a few megabytes, and a build that takes the place of this one on
 * the disk never mixes with it. Null where there is none.
 */
export function readScreens(folder: string): Screens | null {
  if (!existsSync(join(folder, page))) return null;
  const files = new Map<string, ScreenFile>();
  for (const name of readdirSync(folder, { recursive: true, encoding: 'utf8' })) {
    const type = types.get(extname(name));
    // What begins with a dot is of the build, not of the screens.
    if (type === undefined || /(^|[\\/])\./.test(name)) continue;
    files.set(`/${name.replaceAll(sep, '/')}`, fileOf(join(folder, name), type, name));
  }
  const index = files.get(`/${page}`);
  if (index === undefined) return null;
  files.delete(`/${page}`);
  return { page: index, files };
}

function fileOf(path: string, type: string, name: string): ScreenFile {
  const text = readFileSync(path);
  const compressed = (ending: string): Buffer | undefined =>
    existsSync(path + ending) ? readFileSync(path + ending) : undefined;
  return {
    type,
    text,
    br: compressed('.br'),
    gzip: compressed('.gz'),
    tag: createHash('sha256').update(text).digest('base64url').slice(0, 22),
    isHashed: name.startsWith('assets'),
  };
}
