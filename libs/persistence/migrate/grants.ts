import type { Client } from 'pg';
import { queueSchema } from '../queue/boss.ts';
import { serviceRole } from '../roles.ts';

/** Tables whose rows the service may add and read, and nothing else. */
const appendOnly: ReadonlySet<string> = new Set([
  'event',
  'material_version',
  'compiled_problem',
  'plan',
  'plan_refit',
  'plan_placement',
  'plan_placement_crew',
]);

/** Tables that are no business of the service. */
const closed: ReadonlySet<string> = new Set(['_prisma_migrations']);

/**
 * Gives the service role what it needs of every table that is there now, and takes the rest.
 * Run after each migration, in place of grants in the migrations: a history that names a role
 * cannot be replayed where the role is missing.
 */
export async function grantToService(owner: Client): Promise<void> {
  const tables = await owner.query<{ name: string }>(
    "SELECT tablename AS name FROM pg_tables WHERE schemaname = 'public' ORDER BY tablename",
  );
  const statements = [
    `GRANT USAGE ON SCHEMA ${queueSchema} TO ${serviceRole}`,
    `GRANT SELECT, INSERT, UPDATE, DELETE ON ALL TABLES IN SCHEMA ${queueSchema} TO ${serviceRole}`,
    `GRANT USAGE ON ALL SEQUENCES IN SCHEMA ${queueSchema} TO ${serviceRole}`,
    `GRANT EXECUTE ON ALL FUNCTIONS IN SCHEMA ${queueSchema} TO ${serviceRole}`,
    `GRANT USAGE ON SCHEMA public TO ${serviceRole}`,
    `REVOKE ALL ON ALL TABLES IN SCHEMA public FROM PUBLIC, ${serviceRole}`,
    `GRANT USAGE ON ALL SEQUENCES IN SCHEMA public TO ${serviceRole}`,
    `GRANT EXECUTE ON ALL FUNCTIONS IN SCHEMA public TO ${serviceRole}`,
  ];
  for (const { name } of tables.rows) {
    if (closed.has(name)) continue;
    const rights = appendOnly.has(name) ? 'SELECT, INSERT' : 'SELECT, INSERT, UPDATE, DELETE';
    statements.push(`GRANT ${rights} ON public.${owner.escapeIdentifier(name)} TO ${serviceRole}`);
  }
  await owner.query(`BEGIN; ${statements.join('; ')}; COMMIT`);
}
