import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import sharp from 'sharp';
import type { Plugin } from 'vite';

interface Icon {
  readonly name: string;
  readonly drawing: string;
  readonly size: number;
}

/** Telephones want pixels. A maskable drawing keeps what matters in its inner four fifths. */
const icons: readonly Icon[] = [
  { name: 'icon-192.png', drawing: 'icon.svg', size: 192 },
  { name: 'icon-512.png', drawing: 'icon.svg', size: 512 },
  { name: 'icon-maskable-512.png', drawing: 'icon-maskable.svg', size: 512 },
  { name: 'badge-96.png', drawing: 'badge.svg', size: 96 },
];

/** Draws the icons of the installed screens from the drawings in `public`. */
export function drawIcons(): Plugin {
  let folder = '';
  return {
    name: 'icons',
    apply: 'build',
    configResolved({ publicDir }) {
      folder = publicDir;
    },
    async generateBundle() {
      for (const { name, drawing, size } of icons) {
        const svg = await readFile(join(folder, drawing));
        const source = await sharp(svg, { density: 300 }).resize(size).png().toBuffer();
        this.emitFile({ type: 'asset', fileName: name, source });
      }
    },
  };
}
