import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';

const root = fileURLToPath(new URL('../../..', import.meta.url));
const outDir = join(root, 'node_modules', '.cache', 'bench');

/**
 * `own.ts` and all it needs as one file, as the solvers beside it are one file each: a process that
 * reads two hundred sources starts in 0.11 s, one that reads this in 0.04 s. Gives its path.
 */
export async function builtProgram(): Promise<string> {
  await build({
    configFile: false,
    logLevel: 'warn',
    root,
    ssr: { noExternal: true },
    build: {
      ssr: 'tests/bench/peers/own.ts',
      outDir,
      emptyOutDir: false,
      target: 'node24',
      rolldownOptions: { output: { entryFileNames: 'own.mjs', codeSplitting: false } },
    },
  });
  return join(outDir, 'own.mjs');
}
