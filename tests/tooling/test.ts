/**
 * `npm test [-- PATTERN...]`: every vitest test, then one plain line `N passed, N failed` as the
 * last on stdout. Fails when a test fails, when a file cannot be loaded, or when no test ran.
 */
import { parseCLI, startVitest, type TestModule } from 'vitest/node';

const root = new URL('../../', import.meta.url).pathname;

interface Tally {
  passed: number;
  failed: number;
  skipped: number;
}

function tally(modules: readonly TestModule[]): Tally {
  const sum: Tally = { passed: 0, failed: 0, skipped: 0 };
  for (const module of modules) {
    // A file that throws while loading, or a suite whose hook throws, fails without a failed test.
    sum.failed += module.errors().length;
    for (const suite of module.children.allSuites()) sum.failed += suite.errors().length;
    for (const test of module.children.allTests()) {
      const { state } = test.result();
      if (state === 'passed' || state === 'failed') sum[state] += 1;
      else sum.skipped += 1;
    }
  }
  return sum;
}

const { filter, options } = parseCLI(['vitest', 'run', ...process.argv.slice(2)]);
const vitest = await startVitest('test', filter, {
  ...options,
  root,
  config: 'tests/vitest.config.ts',
  watch: false,
});
const { passed, failed, skipped } = tally(vitest.state.getTestModules());
const stray = vitest.state.getUnhandledErrors().length;
await vitest.close();

const failures = failed + stray;
const line = `${passed} passed, ${failures} failed${skipped > 0 ? `, ${skipped} skipped` : ''}`;
const broken = failures > 0 || passed === 0 || (process.exitCode ?? 0) !== 0;
process.stdout.write(`\n${line}\n`, () => process.exit(broken ? 1 : 0));
