import { defineConfig } from 'prisma/config';

/**
 * For the stock command line, e.g. `npx prisma migrate deploy --config prisma/prisma.config.ts`
 * where its native engine can be had. Paths are relative to this file; the schema is every
 * `.prisma` file of this folder. `MIGRATE_DATABASE_URL`
 * is the owner's address; generating the client needs none.
 */
export default defineConfig({
  schema: '.',
  migrations: { path: 'migrations' },
  ...(process.env['MIGRATE_DATABASE_URL'] === undefined
    ? {}
    : { datasource: { url: process.env['MIGRATE_DATABASE_URL'] } }),
});
