import { describe, expect, it } from 'vitest';
import { deployMigrations } from '#persistence/migrate/deploy.ts';
import { differences } from '#persistence/migrate/differences.ts';
import { doors } from '#persistence/migrate/grants.ts';
import { migrationList, schemaFiles } from '#persistence/migrate/files.ts';
import { ensureDatabase, serviceRole, withClient } from '#persistence/roles.ts';
import { materialSchema } from '#planning/yard/materials.ts';
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

interface MaterialVersion {
  readonly material_id: string;
  readonly version: number;
  readonly body: unknown;
}

/** A yard with three tasks of two jobs, as it was stored before there was more to say. */
const rowsOfBefore = `
  INSERT INTO yard (id, name, time_zone, plan_from, horizon_days) VALUES ('y', 'Y', 'UTC', now(), 9);
  INSERT INTO skill (yard_id, id, name) VALUES ('y', 's', 'S');
  INSERT INTO space (yard_id, id, name, room, settling_minutes, climate)
    VALUES ('y', 'h', 'H', 1, 0, 'heated');
  INSERT INTO material (yard_id, id, name, resin_system, minimum_c, maximum_c, below_minimum, cautions)
    VALUES ('y', 'm', 'M', 'epoxy', 5, 30.5, 'stalls', '{gloves}');
  INSERT INTO cure_table (yard_id, material_id, milestone, celsius, minutes, source)
    VALUES ('y', 'm', 'gel', '{5,25}', '{60,20.5}', 'sheet'), ('y', 'm', 'cured', '{5}', '{900}', 'sheet');
  INSERT INTO procedure (yard_id, id, version, name, body) VALUES ('y', 'q', 1, 'Q', '{}');
  INSERT INTO boat (yard_id, id, name) VALUES ('y', 'b', 'B');
  INSERT INTO refit (yard_id, id, boat_id, name, release, weight) VALUES ('y', 'r', 'b', 'R', now(), 1);
  INSERT INTO part (yard_id, id, refit_id, name, space_id, area_m2, edge_m, joint_m)
    VALUES ('y', 'p', 'r', 'P', 'h', 1, 0, 0);
  INSERT INTO job (yard_id, id, part_id, procedure_id, procedure_version)
    VALUES ('y', 'a', 'p', 'q', 1), ('y', 'b', 'p', 'q', 1);
  INSERT INTO task (yard_id, id, refit_id, part_id, job_id, step_id, name, work_minutes, floor_minutes,
                    skill_id, min_level, crew_min, crew_max, air, space_id, splittable, breaks)
    SELECT 'y', id, 'r', 'p', left(id, 1), right(id, 3), 'T', 10, 0, 's', 1, 1, 1, 'clean', 'h', false,
           'observed'
    FROM unnest(ARRAY['a.one', 'a.two', 'b.one']) AS id;
  INSERT INTO task_link (yard_id, id, from_task_id, to_task_id, opens_minutes)
    VALUES ('y', 'a.next', 'a.one', 'a.two', 0), ('y', 'a.two..b.one', 'a.two', 'b.one', 0);
`;

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

  it('leave the tasks, links and materials of before what they were', async () => {
    await withEmpty(async (url) => {
      const { migrationDirectories } = await migrationList();
      const texts = migrationDirectories.map(({ migrationFile }) =>
        migrationFile.content.tag === 'ok' ? migrationFile.content.value : '',
      );
      const at = migrationDirectories.findIndex(({ path }) => path.includes('whole_problem'));
      expect(at).toBeGreaterThan(0);
      await withClient(url, async (owner) => {
        for (const text of texts.slice(0, at)) await owner.query(text);
        await owner.query(rowsOfBefore);
        for (const text of texts.slice(at)) await owner.query(text);
        const tasks = await owner.query(
          'SELECT id, part_ids, skill_id, covered_by, price FROM task ORDER BY id',
        );
        const same = { part_ids: ['p'], skill_id: 's', covered_by: [], price: 0 };
        expect(tasks.rows).toEqual([
          { id: 'a.one', ...same },
          { id: 'a.two', ...same },
          { id: 'b.one', ...same },
        ]);
        const links = await owner.query('SELECT id, set_by FROM task_link ORDER BY id');
        expect(links.rows).toEqual([
          { id: 'a.next', set_by: 'procedure' },
          { id: 'a.two..b.one', set_by: 'job' },
        ]);
        const versions = await owner.query<MaterialVersion>('SELECT * FROM material_version');
        expect(versions.rows.map(({ version, material_id: id }) => [id, version])).toEqual([
          ['m', 1],
        ]);
        const [{ body }] = versions.rows;
        expect(materialSchema.parse(body)).toEqual(
          materialSchema.parse({
            id: 'm',
            name: 'M',
            resinSystem: 'epoxy',
            minimumC: 5,
            maximumC: 30.5,
            belowMinimum: 'stalls',
            milestones: [
              {
                milestone: 'gel',
                rows: [
                  { celsius: 5, minutes: 60 },
                  { celsius: 25, minutes: 20.5 },
                ],
                source: 'sheet',
              },
              { milestone: 'cured', rows: [{ celsius: 5, minutes: 900 }], source: 'sheet' },
            ],
            cautions: ['gloves'],
          }),
        );
      });
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
      for (const table of ['public.mine', 'pg_temp.mine']) {
        await expect(service.query(`CREATE TABLE ${table} ()`)).rejects.toThrow(
          'permission denied',
        );
      }
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
    expect([...tables.keys()].sort()).toEqual([
      'DELETE INSERT SELECT UPDATE',
      'INSERT SELECT',
      'SELECT',
    ]);
    expect(tables.get('SELECT')).toEqual(['audit']);
    expect(tables.get('INSERT SELECT')).toEqual([
      'compiled_problem',
      'event',
      'material_version',
      'plan',
      'plan_placement',
      'plan_placement_crew',
      'plan_refit',
      'publishing',
      'rework',
    ]);
  });

  it('may call what works with its own rights, and of what works with the owner’s the doors only', async () => {
    await withClient(database.serviceUrl, async (service) => {
      const { rows } = await service.query<{ name: string; definer: boolean; may: boolean }>(
        `SELECT proname AS name, prosecdef AS definer, has_function_privilege(oid, 'EXECUTE') AS may
         FROM pg_proc p WHERE pronamespace = 'public'::regnamespace
           AND NOT EXISTS (SELECT FROM pg_depend d WHERE d.objid = p.oid AND d.deptype = 'e')`,
      );
      const open = rows.filter(({ definer, may }) => definer && may).map(({ name }) => name);
      expect(open.sort()).toEqual([...doors].sort());
      const triggers = rows.filter(({ may }) => !may).map(({ name }) => name);
      expect(triggers).toEqual(expect.arrayContaining(['access_notify', 'event_notify']));
      expect(rows.filter(({ name }) => name === 'is_milestone')).toMatchObject([{ may: true }]);
    });
    await withClient(database.ownerUrl, async (owner) => {
      const { rows } = await owner.query(
        `SELECT proname FROM pg_proc WHERE prosecdef AND pronamespace = 'public'::regnamespace
           AND NOT coalesce('search_path=pg_catalog, public, pg_temp' = ANY (proconfig), false)`,
      );
      expect(rows).toEqual([]);
    });
  });
});
