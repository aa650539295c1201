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
  'rework',
  'publishing',
]);

/** Tables that triggers alone write. */
const readOnly: ReadonlySet<string> = new Set(['audit']);

/** Tables that are no business of the service. */
const closed: ReadonlySet<string> = new Set(['_prisma_migrations']);

/**
 * The doors of the second wall: functions that work with the owner's rights, which the service
 * may call all the same. What is not named here it may not.
 */
export const doors: ReadonlySet<string> = new Set([
  'enter_yard',
  'enter_yard_as_service',
  'enter_account',
  'enter_nowhere',
  'app_own_boats',
  'app_own_refits',
  'app_own_parts',
  'app_own_yards',
  'caller_of',
  'caller_of_key',
  'sign_in_account',
  'pending_sign_in_of',
  'password_reset_known',
  'password_reset_of',
  'invitation_of',
  'accept_invitation',
  'hold_membership',
  'revoke_keys_of',
  'passkey_of',
  'take_challenge',
  'demo_account_exists',
  'has_yards',
  'purge_access',
  'own_published_sheet',
  'own_publishings',
  'space_occupancy',
  'app_own_snags',
  'own_proposals',
  'yards_behind',
  'yards_with_alarms',
  'push_targets',
  'hand_over_push',
  'push_answered',
  'calendar_of',
]);

/**
 * Gives the service role what it needs of every table and function that is there now, and takes
 * the rest. Run after each migration, in place of grants in the migrations: a history that names
 * a role cannot be replayed where the role is missing.
 */
export async function grantToService(owner: Client): Promise<void> {
  const statements = [
    `GRANT USAGE ON SCHEMA ${queueSchema} TO ${serviceRole}`,
    `GRANT SELECT, INSERT, UPDATE, DELETE ON ALL TABLES IN SCHEMA ${queueSchema} TO ${serviceRole}`,
    `GRANT USAGE ON ALL SEQUENCES IN SCHEMA ${queueSchema} TO ${serviceRole}`,
    `GRANT EXECUTE ON ALL FUNCTIONS IN SCHEMA ${queueSchema} TO ${serviceRole}`,
    `GRANT USAGE ON SCHEMA public TO ${serviceRole}`,
    `REVOKE ALL ON ALL TABLES IN SCHEMA public FROM PUBLIC, ${serviceRole}`,
    `GRANT USAGE ON ALL SEQUENCES IN SCHEMA public TO ${serviceRole}`,
    ...(await onTables(owner)),
    ...(await onFunctions(owner)),
  ];
  await owner.query(`BEGIN; ${statements.join('; ')}; COMMIT`);
}

async function onTables(owner: Client): Promise<string[]> {
  const { rows } = await owner.query<{ name: string }>(
    "SELECT tablename AS name FROM pg_tables WHERE schemaname = 'public' ORDER BY tablename",
  );
  return rows
    .filter(({ name }) => !closed.has(name))
    .map(
      ({ name }) =>
        `GRANT ${rightsOn(name)} ON public.${owner.escapeIdentifier(name)} TO ${serviceRole}`,
    );
}

function rightsOn(table: string): string {
  if (readOnly.has(table)) return 'SELECT';
  return appendOnly.has(table) ? 'SELECT, INSERT' : 'SELECT, INSERT, UPDATE, DELETE';
}

interface OwnFunction {
  readonly signature: string;
  readonly name: string;
  readonly definer: boolean;
  /** Runs without being granted to whoever sets it off. */
  readonly trigger: boolean;
}

/**
 * Of our own functions; those of extensions belong to others. A new one is everybody's in
 * PostgreSQL, so that is taken back.
 */
async function onFunctions(owner: Client): Promise<string[]> {
  const { rows } = await owner.query<OwnFunction>(`
    SELECT oid::regprocedure::text AS signature, proname AS name, prosecdef AS definer,
           prorettype = 'trigger'::regtype AS trigger
    FROM pg_proc
    WHERE pronamespace = 'public'::regnamespace AND proowner = current_user::regrole
    ORDER BY 1`);
  return rows.flatMap(({ signature, name, definer, trigger }) => [
    `REVOKE ALL ON FUNCTION ${signature} FROM PUBLIC, ${serviceRole}`,
    ...(trigger || (definer && !doors.has(name))
      ? []
      : [`GRANT EXECUTE ON FUNCTION ${signature} TO ${serviceRole}`]),
  ]);
}
