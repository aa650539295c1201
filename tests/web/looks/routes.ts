import { readFile } from 'node:fs/promises';

/** The patterns of the screens' addresses, out of their one list. */
export async function patternsOfRoutes(): Promise<string[]> {
  const file = new URL('../../../apps/web/src/routes.tsx', import.meta.url);
  const text = await readFile(file, 'utf8');
  return [...text.matchAll(/^\s*\['(\/[^']*)', /gm)].map(([, pattern]) => pattern);
}
