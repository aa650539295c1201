import { readdir, readFile, writeFile } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { promisify } from 'node:util';
import { brotliCompress, gzip } from 'node:zlib';
import type { Plugin } from 'vite';

/** Smaller ones fit into a packet or two as they are. */
const leastBytes = 1024;

/** Writes `.br` and `.gz` beside what is text, as small as they get: it is done once, here. */
export function compress(): Plugin {
  let folder = '';
  return {
    name: 'compress',
    enforce: 'post',
    apply: 'build',
    configResolved({ root, build }) {
      folder = resolve(root, build.outDir);
    },
    async closeBundle() {
      const names = await readdir(folder, { recursive: true });
      const texts = names.filter((name) => /\.(js|css|html|json|svg|webmanifest)$/.test(name));
      await Promise.all(texts.map((name) => compressFile(join(folder, name))));
    },
  };
}

async function compressFile(path: string): Promise<void> {
  const text = await readFile(path);
  if (text.length < leastBytes) return;
  const [small, usual] = await Promise.all([
    promisify(brotliCompress)(text),
    promisify(gzip)(text, { level: 9 }),
  ]);
  await writeFile(`${path}.br`, small);
  await writeFile(`${path}.gz`, usual);
}
