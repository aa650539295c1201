import { startThrowAway } from '../embedded/throw-away.ts';
import { withClient } from '../roles.ts';
import { differences } from './differences.ts';

/**
 * `node libs/persistence/migrate/diff.ts [--script]`: exit 1, with the differences, where
 * prisma/migrations do not make what prisma/*.prisma say. Uses the server of DATABASE_URL_ADMIN
 * (a superuser; a database is made and dropped), or else a throw-away one.
 */
async function main(script: boolean): Promise<number> {
  const given = process.env['DATABASE_URL_ADMIN'];
  const server = given === undefined ? await startThrowAway() : null;
  const adminUrl = given ?? server?.adminUrl ?? '';
  const name = `curewright_diff_${String(process.pid)}`;
  const url = new URL(adminUrl);
  url.pathname = `/${name}`;
  try {
    await withClient(adminUrl, (admin) => admin.query(`CREATE DATABASE ${name}`));
    try {
      const found = await differences(url.href, { script });
      if (found === null) return 0;
      process.stdout.write(
        script ? found : `The migrations do not make what prisma/*.prisma say:\n${found}`,
      );
      return 1;
    } finally {
      await withClient(adminUrl, (admin) => admin.query(`DROP DATABASE ${name} WITH (FORCE)`));
    }
  } finally {
    await server?.stop();
  }
}

process.exitCode = await main(process.argv.includes('--script'));
