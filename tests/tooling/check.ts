/** `npm run check`: every check that is not a test, in order, each reported by name. */
import { spawnSync } from 'node:child_process';

const root = new URL('../../', import.meta.url).pathname;
const hook = ['--import', './apps/launch/ts-hook.mjs'];

/** Name, what it keeps true, program and arguments; a program exits non-zero when it is not so. */
const checks: readonly (readonly [name: string, program: string, args: readonly string[]])[] = [
  ['format', 'prettier', ['--check', '--log-level', 'warn', '.']],
  ['lint', 'eslint', ['--config', 'tests/tooling/eslint.config.js', '--max-warnings', '0', '.']],
  ['types', 'tsc', ['--noEmit', '--project', 'tsconfig.json']],
  ['types of the screens', 'tsc', ['--noEmit', '--project', 'apps/web/tsconfig.json']],
  [
    'types of the worker',
    'tsc',
    ['--noEmit', '--project', 'apps/web/service-worker/tsconfig.json'],
  ],
  ['types of their tests', 'tsc', ['--noEmit', '--project', 'tests/web/tsconfig.json']],
  [
    'layers',
    'depcruise',
    [
      '--config',
      'tests/tooling/layers.cjs',
      '--output-type',
      'err',
      'apps',
      'libs',
      'tests',
      'seeds',
    ],
  ],
  ['dead code', 'knip', ['--config', 'tests/tooling/knip.json', '--no-progress']],
  ['lock file', 'node', ['tests/tooling/lock-file.ts']],
  ['seed files', 'node', ['seeds/write.ts', '--check']],
  ['api schema', 'node', [...hook, 'apps/api/src/write-schemas.ts', '--check']],
  ['migrations', 'node', ['libs/persistence/migrate/diff.ts']],
];

/** `npm run check -- NAME...` runs only those. */
const wanted = process.argv.slice(2);
const unknown = wanted.filter((name) => !checks.some(([known]) => known === name));
if (unknown.length > 0) {
  console.error(`No such check: ${unknown.join(', ')}.`);
  process.exit(2);
}

const failed: string[] = [];
for (const [name, program, args] of checks) {
  if (wanted.length > 0 && !wanted.includes(name)) continue;
  const start = performance.now();
  const run = spawnSync(program, args, { cwd: root, encoding: 'utf8', maxBuffer: 2 ** 26 });
  const seconds = ((performance.now() - start) / 1000).toFixed(1);
  const ok = run.status === 0;
  console.log(`${ok ? 'ok    ' : 'FAILED'}  ${name.padEnd(20)}  ${seconds.padStart(5)} s`);
  if (ok) continue;
  failed.push(name);
  const said = [run.error?.message ?? '', run.stdout, run.stderr].filter((text) => text !== '');
  console.log(said.join('\n'));
}
if (failed.length > 0) {
  console.log(`check failed: ${failed.join(', ')}`);
  process.exitCode = 1;
}
