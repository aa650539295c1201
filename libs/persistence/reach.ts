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

/** Throws where no migration has made the tables yet in the database that `DATABASE_URL` gave. */
export async function assertMigrated(url: string): Promise<void> {
  const hasTables = await withClient(url, async (client) => {
    const { rows } = await client.query<{ known: boolean }>(
      "SELECT to_regclass('public.plan_run') IS NOT NULL AS known",
    );
    return rows[0].known;
  });
  if (hasTables) return;
  throw new Error(
    `DATABASE_URL: the database "${placeOf(url).database}" has no tables of Curewright. ` +
      'Set MIGRATE_DATABASE_URL to the same database as its owner, curewright_owner, to make them.',
  );
}

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
