import { readFile, writeFile } from 'node:fs/promises';
import { format } from 'prettier';
import { demoYard } from './demo-yard.ts';
import { startingKit } from './starting-kit.ts';
import { yardOfOne } from './yard-of-one.ts';

/**
 * Writes the seeds' yard files, and what a new yard may begin with, from their sources; with
 * `--check` writes nothing and fails if a file differs from what its source gives.
 */
const files: readonly (readonly [name: string, content: object])[] = [
  ['demo-yard.json', demoYard],
  ['yard-of-one.json', yardOfOne],
  ['starting-kit.json', startingKit],
];

const checkOnly = process.argv.includes('--check');
for (const [name, content] of files) {
  const path = new URL(name, import.meta.url);
  const text = await format(JSON.stringify(content), { parser: 'json', printWidth: 100 });
  if (!checkOnly) {
    await writeFile(path, text);
    continue;
  }
  const committed = await readFile(path, 'utf8').catch(() => '');
  if (committed !== text) {
    process.stderr.write(`seeds/${name} is not what its source gives: run "node seeds/write.ts"\n`);
    process.exitCode = 1;
  }
}
