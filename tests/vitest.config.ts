import { defineConfig } from 'vitest/config';
import SlowestFirst from './tooling/slowest-first.ts';

const root = new URL('..', import.meta.url).pathname;

export default defineConfig({
  root,
  // Vite takes the package's `module` build and Nest its `main`: two copies refuse each other's types.
  resolve: {
    alias: [{ find: /^graphql$/, replacement: `${root}node_modules/graphql/index.js` }],
  },
  test: {
    pool: 'forks',
    // A worker keeps its modules from file to file: to load them anew for each was half of the time.
    // So no test may change a module's state, and what a file opens it closes.
    isolate: false,
    // Two cores: more workers would only make timings of searches and databases jump.
    maxWorkers: 2,
    // Not to time anything: a loaded machine may take its while.
    testTimeout: 60_000,
    expect: { poll: { timeout: 20_000 } },
    sequence: { sequencer: SlowestFirst },
    setupFiles: ['tests/support/fixed-seed.ts'],
    projects: [
      {
        extends: true,
        test: { name: 'unit', root, include: ['{apps,libs,seeds}/**/*.test.ts'] },
      },
      {
        extends: true,
        test: {
          name: 'whole',
          root,
          include: ['tests/**/*.test.ts'],
          globalSetup: ['tests/support/database-server.ts'],
          // A file clones a database and starts a server before its first line.
          hookTimeout: 60_000,
        },
      },
    ],
  },
});
