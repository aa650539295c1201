/**
 * The way in for every npm script: makes a fresh clone ready, then runs the script's program
 * on the pinned Node. Plain JavaScript on Node's own modules only, since it runs on Node 20
 * before anything is installed. Its words go to stderr: stdout belongs to the program.
 */
import { fileURLToPath } from 'node:url';
import { generateClient } from './client.mjs';
import { installDependencies } from './install.mjs';
import { withLock } from './lock.mjs';
import { runProgram } from './run.mjs';
import { buildScreens } from './screens.mjs';

const root = fileURLToPath(new URL('../../', import.meta.url));

/**
 * `here`: relative paths in the arguments mean the folder the user typed the command in. `screens`:
 * what is shown in browsers is built before. `build` does no more than that.
 */
const programs = {
  start: { file: 'apps/launch/start.ts', decorators: true, screens: true },
  build: { screens: true },
  plan: { file: 'apps/cli/plan.ts', here: true },
  solve: { file: 'apps/cli/solve.ts', here: true },
  account: { file: 'apps/cli/account.ts' },
  audit: { file: 'apps/cli/audit.ts' },
  bench: { file: 'tests/bench/main.ts', here: true, screens: true },
  test: { file: 'tests/tooling/test.ts', screens: true },
  schema: { file: 'apps/api/src/write-schemas.ts', decorators: true },
  check: { file: 'tests/tooling/check.ts' },
};

const [name, ...args] = process.argv.slice(2);
const program = programs[name];
if (program === undefined) {
  console.error(`bootstrap: expected one of ${Object.keys(programs).join(', ')}, not ${name}`);
  process.exit(2);
}
if (Number.parseInt(process.versions.node, 10) < 20) {
  console.error(`Node 20 or newer is needed; this is ${process.versions.node}.`);
  process.exit(1);
}

try {
  await withLock(root, () => {
    installDependencies(root);
    generateClient(root);
    if (program.screens) buildScreens(root);
  });
  if (program.file !== undefined) await runProgram(root, program, args);
} catch (error) {
  console.error(error.message);
  process.exit(1);
}
