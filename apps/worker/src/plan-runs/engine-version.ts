import { readFileSync } from 'node:fs';
import { z } from 'zod';

const manifest = new URL('../../../../package.json', import.meta.url);

/** Kept with each plan, so that a difference between two plans can be put down to it. */
export const engineVersion = z
  .object({ version: z.string() })
  .parse(JSON.parse(readFileSync(manifest, 'utf8'))).version;
