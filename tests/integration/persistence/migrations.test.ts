import { describe, expect, it } from 'vitest';
import { deployMigrations } from '#persistence/migrate/deploy.ts';
import { differences } from '#persistence/migrate/differences.ts';
import { schemaFiles } from '#persistence/migrate/files.ts';
import { ensureDatabase, serviceRole, withClient } from '#persistence/roles.ts';
import { testDatabase } from '#tests/support/database.ts';
import { withDatabase } from '#tests/support/database-server.ts';

const database = testDatabase();

/** Runs `use` with the owner's address of a new, empty database. */
async function withEmpty<T>(use: (ownerUrl: string) => Promise<T>): Promise<T> {
  const name = `empty_${crypto.randomUUID().replaceAll('-', '')}`;
  await withClient(database.adminUrl, (admin) => ensureDatabase(admin, name));
  try {
    return await use(withDatabase(database.ownerUrl, name));
  } finally {
    await withClient(database.adminUrl, (admin) =>
      admin.query(`DROP DATABASE ${name} WITH (FORCE)`),
    );
  }
}

describe('migrations', () => {
  it('are applied once, though two processes begin together, and then are nothing to do', async () => {
    await withEmpty(async (url) => {
      const both = await Promise.all([deployMigrations(url), deployMigrations(url)]);
      expect(both.filter((applied) => applied.length === 0)).toHaveLength(1);
      expect(both.flat()).toEqual([...both.flat()].sort());
      expect(both.flat().length).toBeGreaterThan(1);
      expect(await deployMigrations(url)).toEqual([]);
    });
  });

  it('that were edited after they were applied are refused', async () => {
    await withEmpty(async (url) => {
      const [first] = await deployMigrations(url);
      await withClient(url, (owner) =>
        owner.query("UPDATE _prisma_migrations SET checksum = 'other'"),
      );
      await expect(deployMigrations(url)).rejects.toThrow(first);
    });
  });

  it('make what prisma/*.prisma say, and the check would say so if not', async () => {
    expect(await withEmpty((url) => differences(url))).toBeNull();
    const edits = [
      ['spaces', 'model Tool {', 'model Tool {\n  colour String?'],
      ['accounts', 'onDelete: Cascade', 'onDelete: Restrict'],
      ['boats', '@@index([yardId, spaceId])', ''],
    ] as const;
    const schema = (await schemaFiles()).map(({ path, content }) => {
      const edit = edits.find(([name]) => path.endsWith(`${name}.prisma`));
      return { path, content: edit === undefined ? content : content.replace(edit[1], edit[2]) };
    });
    const found = await withEmpty((url) => differences(url, { schema }));
    expect(found?.match(/Changed the `\w+` table/g)).toEqual([
      'Changed the `part` table',
      'Changed the `session` table',
      'Changed the `tool` table',
    ]);
  });
});

describe('the service role', () => {
  it('owns no table, may not bypass row-level security or create in the schema', async () => {
    await withClient(database.serviceUrl, async (service) => {
      const role = await service.query(
        'SELECT rolsuper, rolbypassrls, rolcreaterole, rolcreatedb FROM pg_roles WHERE rolname = current_user',
      );
      expect(role.rows).toEqual([
        { rolsuper: false, rolbypassrls: false, rolcreaterole: false, rolcreatedb: false },
      ]);
      const owned = await service.query(
        'SELECT 1 FROM pg_class WHERE relowner = to_regrole(current_user)',
      );
      expect(owned.rowCount).toBe(0);
      await expect(service.query('CREATE TABLE public.mine ()')).rejects.toThrow(
        'permission denied',
      );
      await expect(service.query('SELECT * FROM _prisma_migrations')).rejects.toThrow(
        'permission denied',
      );
      await expect(service.query('ALTER TABLE event DISABLE TRIGGER ALL')).rejects.toThrow(
        'must be owner',
      );
    });
  });

  it('has only what it needs of each table', async () => {
    const rights = await withClient(database.ownerUrl, (owner) =>
      owner.query<{ rights: string; tables: string[] }>(
        `SELECT rights, array_agg(name ORDER BY name) AS tables FROM (
           SELECT table_name::text AS name, string_agg(privilege_type, ' ' ORDER BY privilege_type) AS rights
           FROM information_schema.role_table_grants
           WHERE grantee = $1 AND table_schema = 'public' GROUP BY table_name) AS t GROUP BY rights`,
        [serviceRole],
      ),
    );
    const tables = new Map(rights.rows.map((row) => [row.rights, row.tables]));
    expect([...tables.keys()].sort()).toEqual(['DELETE INSERT SELECT UPDATE', 'INSERT SELECT']);
    expect(tables.get('INSERT SELECT')).toEqual([
      'compiled_problem',
      'event',
      'plan',
      'plan_placement',
      'plan_placement_crew',
      'plan_refit',
    ]);
  });
});
