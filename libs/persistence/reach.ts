import { withClient } from './roles.ts';

/** As `server_version_num` counts; row versions, UUIDs and constraints of ours need it. */
const oldestVersion = 180_000;

/**
 * Tries the database at `url`, which the variable `name` gave. Throws one message that names the
 * variable, the place without its password, and the cure.
 */
export async function assertReachable(name: string, url: string): Promise<void> {
  const place = placeOf(url);
  let version: number;
  try {
    version = await withClient(url, async (client) => {
      const { rows } = await client.query<{ version: string }>(
        "SELECT current_setting('server_version_num') AS version",
      );
      return Number(rows[0].version);
    });
  } catch (error) {
    throw new Error(`${name}: ${reason(error, place)}`, { cause: error });
  }
  if (version < oldestVersion) {
    const found = String(Math.floor(version / 10_000));
    throw new Error(
      `${name}: ${place.host} is PostgreSQL ${found}; Curewright needs 18. ` +
        'Without DATABASE_URL it brings one along.',
    );
  }
}

/** Throws where no migration has made the tables yet in the database that the variable `name` gave. */
export async function assertMigrated(name: string, url: string): Promise<void> {
  const hasTables = await withClient(url, async (client) => {
    const { rows } = await client.query<{ known: boolean }>(
      "SELECT to_regclass('public.plan_run') IS NOT NULL AS known",
    );
    return rows[0].known;
  });
  if (hasTables) return;
  throw new Error(
    `${name}: the database "${placeOf(url).database}" has no tables of Curewright. ` +
      'Start Curewright with MIGRATE_DATABASE_URL, the database as its owner, curewright_owner, to make them.',
  );
}

/** Tables of schema `public` in which nothing is any yard's or account's, each with its reason. */
export const outsideTheWall: Readonly<Record<string, string>> = {
  _prisma_migrations: 'which migrations were applied; the service may not even read it',
  rate_limit: 'counts of attempts under a name, written by the limiter before anybody is known',
};

interface Wall {
  /** By itself, or as another role that it may become. */
  readonly bypasses: boolean;
  /** Tables that the role could take the wall down from. */
  readonly owned: string[];
  /** Tables that the wall does not stand around. */
  readonly open: string[];
}

/**
 * Throws where row security would not keep yards apart for whoever signs in with the address in
 * `DATABASE_URL`: the role may look past it or owns a table, or a table has none.
 */
export async function assertSecondWall(url: string): Promise<void> {
  const { user, database } = placeOf(url);
  const { bypasses, owned, open } = await withClient(url, async (client) => {
    const { rows } = await client.query<Wall>(
      `SELECT EXISTS (SELECT FROM pg_roles b WHERE (b.rolsuper OR b.rolbypassrls)
                      AND pg_has_role(r.oid, b.oid, 'MEMBER')) AS bypasses,
         ARRAY(SELECT c.relname::text FROM pg_class c
               WHERE c.relnamespace = 'public'::regnamespace AND c.relkind IN ('r', 'p')
                 AND pg_has_role(r.oid, c.relowner, 'MEMBER') ORDER BY 1) AS owned,
         ARRAY(SELECT c.relname::text FROM pg_class c
               WHERE c.relnamespace = 'public'::regnamespace AND c.relkind IN ('r', 'p')
                 AND NOT c.relrowsecurity AND c.relname <> ALL ($1) ORDER BY 1) AS open
       FROM pg_roles r WHERE r.rolname = current_user`,
      [Object.keys(outsideTheWall)],
    );
    return rows[0];
  });
  if (bypasses || owned.length > 0) {
    const why = bypasses
      ? 'may look past row security'
      : `owns tables (${some(owned)}) or may become their owner`;
    throw new Error(
      `DATABASE_URL: the user "${user}" ${why}, so nothing would keep yards apart. ` +
        'Use curewright_service, which owns nothing; curewright_owner is for MIGRATE_DATABASE_URL.',
    );
  }
  if (open.length > 0) {
    throw new Error(
      `DATABASE_URL: tables of "${database}" have no row security (${some(open)}). ` +
        'Bring it up to date with MIGRATE_DATABASE_URL; a new table needs policies in its migration.',
    );
  }
}

const some = (names: readonly string[]): string =>
  names.length > 3 ? `${names.slice(0, 3).join(', ')}, …` : names.join(', ');

interface Place {
  readonly host: string;
  readonly user: string;
  readonly database: string;
}

function placeOf(url: string): Place {
  const { host, username, pathname } = new URL(url);
  return { host, user: decodeURIComponent(username), database: pathname.slice(1) };
}

/** Codes of the system (ECONNREFUSED) and of PostgreSQL (appendix A of its manual). */
function reason(error: unknown, { host, user, database }: Place): string {
  const code = error instanceof Error && 'code' in error ? error.code : undefined;
  switch (code) {
    case '28P01':
    case '28000':
      return `${host} refuses the user "${user}". Correct name or password.`;
    case '3D000':
      return `${host} has no database "${database}". Create it, or correct the name.`;
    case '42501':
      return `${host} does not let the user "${user}" into "${database}". Grant CONNECT on it.`;
    default:
      return (
        `no PostgreSQL answers at ${host} (${error instanceof Error ? error.message : String(error)}). ` +
        'Start it or correct the address; without DATABASE_URL one is brought along.'
      );
  }
}
