import { withClient } from '#persistence/roles.ts';
import type { TestDatabase } from '../../support/database.ts';

/**
 * Every table of a yard's with the count and a hash of the yard's rows: the same before and after
 * means that nothing of it was changed, added or taken away.
 */
export function traceOf({ adminUrl }: TestDatabase, yardId: string): Promise<Map<string, string>> {
  return withClient(adminUrl, async (admin) => {
    const tables = await admin.query<{ name: string }>(
      `SELECT table_name AS name FROM information_schema.columns
       WHERE table_schema = 'public' AND column_name = 'yard_id' ORDER BY 1`,
    );
    const traces = new Map<string, string>();
    for (const { name } of [...tables.rows, { name: 'yard' }]) {
      const key = name === 'yard' ? 'id' : 'yard_id';
      const { rows } = await admin.query<{ trace: string }>(
        `SELECT count(*) || ' ' || coalesce(md5(string_agg(t::text, '|' ORDER BY t::text)), '') AS trace
         FROM ${admin.escapeIdentifier(name)} t WHERE ${key} = $1`,
        [yardId],
      );
      traces.set(name, rows[0].trace);
    }
    return traces;
  });
}
