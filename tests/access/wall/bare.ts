import { serviceRole, withClient } from '#persistence/roles.ts';

export interface WalledTable {
  readonly name: string;
  /** Whose rows it holds, and the column that says whose. */
  readonly of: 'yard' | 'account' | 'nobody';
  readonly key: string;
}

/** What the catalogue says there is in schema `public`. */
export function tablesOf(adminUrl: string): Promise<WalledTable[]> {
  return withClient(adminUrl, async (admin) => {
    const { rows } = await admin.query<{ name: string; columns: string[] }>(
      `SELECT c.relname::text AS name, array_agg(a.attname::text) AS columns
       FROM pg_class c JOIN pg_attribute a ON a.attrelid = c.oid AND a.attnum > 0
       WHERE c.relnamespace = 'public'::regnamespace AND c.relkind IN ('r', 'p')
       GROUP BY c.oid ORDER BY 1`,
    );
    return rows.map(({ name, columns }): WalledTable => {
      if (name === 'yard' || name === 'account') return { name, of: name, key: 'id' };
      if (columns.includes('yard_id')) return { name, of: 'yard', key: 'yard_id' };
      if (columns.includes('account_id')) return { name, of: 'account', key: 'account_id' };
      return { name, of: 'nobody', key: '' };
    });
  });
}

/**
 * Takes away all that stands beside the wall: the service may do everything with every table, no
 * foreign key keeps a row and no trigger refuses a change. What it still cannot do, policies forbid.
 */
export async function leaveTheWallAlone(
  adminUrl: string,
  tables: readonly WalledTable[],
): Promise<void> {
  await withClient(adminUrl, async (admin) => {
    for (const { name } of tables) {
      await admin.query(`ALTER TABLE ${name} DISABLE TRIGGER ALL`);
      await admin.query(`GRANT SELECT, INSERT, UPDATE, DELETE ON ${name} TO ${serviceRole}`);
    }
  });
}
