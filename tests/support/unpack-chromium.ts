/**
 * `node tests/support/unpack-chromium.ts`: unpacks the browser of the npm package into the folder for
 * temporary files (TMPDIR), with the libraries and the font that a bare machine lacks.
 */
import { inflate } from '@sparticuz/chromium';
import { fileURLToPath } from 'node:url';

const packed = new URL('../bin/', import.meta.resolve('@sparticuz/chromium'));
for (const file of ['chromium.br', 'fonts.tar.br', 'al2023.tar.br']) {
  await inflate(fileURLToPath(new URL(file, packed)));
}
