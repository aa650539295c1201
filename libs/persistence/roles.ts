import type { Client } from 'pg';
import { Connection } from './connection.ts';

/** Owns the schema and runs the migrations. */
export const ownerRole = 'curewright_owner';
/** What api and worker sign in as: owns nothing, may not bypass row-level security. */
export const serviceRole = 'curewright_service';

export interface RolePasswords {
  readonly ownerPassword: string;
  readonly servicePassword: string;
}

/** Runs `use` on one connection to `url`. */
export async function withClient<T>(url: string, use: (client: Client) => Promise<T>): Promise<T> {
  const client = new Connection({ connectionString: url, connectionTimeoutMillis: 10_000 });
  await client.connect();
  try {
    return await use(client);
  } finally {
    await client.end();
  }
}

/** Makes the two roles, or sets their passwords and attributes anew. `admin` is a superuser. */
export async function ensureRoles(admin: Client, passwords: RolePasswords): Promise<void> {
  const attributes = 'LOGIN NOSUPERUSER NOCREATEDB NOCREATEROLE NOREPLICATION NOBYPASSRLS';
  for (const [role, password] of [
    [ownerRole, passwords.ownerPassword],
    [serviceRole, passwords.servicePassword],
  ] as const) {
    const known = await admin.query('SELECT 1 FROM pg_roles WHERE rolname = $1', [role]);
    const verb = known.rowCount === 0 ? 'CREATE' : 'ALTER';
    await admin.query(
      `${verb} ROLE ${role} ${attributes} PASSWORD ${admin.escapeLiteral(password)}`,
    );
  }
}

/** Makes the database if it is not there (from `template`), the owner's, closed to everyone else. */
export async function ensureDatabase(
  admin: Client,
  name: string,
  template?: string,
): Promise<void> {
  const database = admin.escapeIdentifier(name);
  const known = await admin.query('SELECT 1 FROM pg_database WHERE datname = $1', [name]);
  if (known.rowCount === 0) {
    const from = template === undefined ? '' : ` TEMPLATE ${admin.escapeIdentifier(template)}`;
    await admin.query(`CREATE DATABASE ${database} OWNER ${ownerRole}${from}`);
  }
  await admin.query(`REVOKE ALL ON DATABASE ${database} FROM PUBLIC`);
  await admin.query(`GRANT CONNECT ON DATABASE ${database} TO ${serviceRole}`);
}
