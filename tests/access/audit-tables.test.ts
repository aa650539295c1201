import { beforeAll, expect, test } from 'vitest';
import { auditRecordSchema, recordOf } from '#persistence/audit/records.ts';
import { serviceRole, withClient } from '#persistence/roles.ts';
import { testDatabase } from '../support/database.ts';

const database = testDatabase();

/** What the service may change and nobody writes down, each with its reason. */
const notAudited: Readonly<Record<string, string>> = {
  event: 'is a log itself, which nobody can change',
  compiled_problem: 'follows from the yard, under its hash, and never changes',
  plan_refit: 'is a part of its plan, which is audited, and never changes',
  plan_placement: 'is a part of its plan, which is audited, and never changes',
  plan_placement_crew: 'is a part of its plan, which is audited, and never changes',
  procedure_use: 'repeats what the body of its procedure says, which is audited',
  idempotency_key: 'keeps the answer of a command for a while; what the command did is audited',
  rate_limit: 'counts attempts of whoever comes',
  work_span: 'repeats what the events of its task say, which nobody can change',
  report: 'is a log of what phones said; what came of one is an event',
  log_cursor: 'says how far the service has read a log',
  alarm: 'follows from films and plans; that it rang is an event',
  alarm_receipt: 'says what somebody has been shown',
  calendar_item: 'repeats what a feed said last',
  passkey_challenge: 'is a question that anybody may ask for, forgotten in minutes',
};

interface Table {
  readonly name: string;
  /** What the service may do to it, of INSERT, UPDATE and DELETE. */
  readonly rights: readonly string[];
}

interface Trigger {
  readonly table: string;
  readonly events: readonly string[];
  readonly deferred: boolean;
  readonly enabled: boolean;
  readonly yard: string;
  readonly key: readonly string[];
  readonly secrets: readonly string[];
}

let tables: readonly Table[] = [];
let triggers: readonly Trigger[] = [];

beforeAll(() =>
  withClient(database.ownerUrl, async (owner) => {
    const found = await owner.query<Table>(
      `SELECT table_name::text AS name, array_agg(privilege_type::text) AS rights
       FROM information_schema.role_table_grants
       WHERE grantee = $1 AND table_schema = 'public' AND privilege_type <> 'SELECT'
       GROUP BY table_name ORDER BY table_name`,
      [serviceRole],
    );
    tables = found.rows;
    // Bits of pg_trigger.tgtype: 4 insert, 8 delete, 16 update; its arguments end with a zero byte.
    const hung = await owner.query<Omit<Trigger, 'yard' | 'key' | 'secrets'> & { words: string[] }>(
      `SELECT c.relname::text AS table, tginitdeferred AS deferred, tgenabled = 'O' AS enabled,
              array_remove(ARRAY[CASE WHEN tgtype & 4 > 0 THEN 'INSERT' END,
                                 CASE WHEN tgtype & 8 > 0 THEN 'DELETE' END,
                                 CASE WHEN tgtype & 16 > 0 THEN 'UPDATE' END], NULL) AS events,
              string_to_array(encode(tgargs, 'escape'), '\\000') AS words
       FROM pg_trigger t JOIN pg_class c ON c.oid = tgrelid
       WHERE tgfoid = 'audit_row'::regproc`,
    );
    const list = (word: string): string[] => word.slice(1, -1).split(',').filter(Boolean);
    triggers = hung.rows.map(({ words: [yard, key, secrets], ...row }) => ({
      ...row,
      yard,
      key: list(key),
      secrets: list(secrets),
    }));
  }),
);

test('every table that the service may change is audited, or named here with a reason', () => {
  expect(tables.length).toBeGreaterThan(50);
  const left = tables.flatMap(({ name, rights }) => {
    const covered = triggers
      .filter((trigger) => trigger.table === name && trigger.enabled && trigger.deferred)
      .flatMap(({ events }) => events);
    const missing = rights.filter((right) => !covered.includes(right));
    return missing.length === 0 ? [] : [name];
  });
  expect(left).toEqual(Object.keys(notAudited).sort());
});

test('beside those tables it may change the queue only', async () => {
  const schemas = await withClient(database.ownerUrl, (owner) =>
    owner.query<{ name: string }>(
      `SELECT DISTINCT table_schema::text AS name FROM information_schema.role_table_grants
       WHERE grantee IN ($1, 'PUBLIC') AND privilege_type <> 'SELECT' ORDER BY 1`,
      [serviceRole],
    ),
  );
  expect(schemas.rows).toEqual([{ name: 'pgboss' }, { name: 'public' }]);
});

test('the records that can be asked for are those of a yard that are audited', () => {
  const ofYards = triggers.filter(({ yard }) => yard !== '').map(({ table }) => recordOf(table));
  expect([...new Set(ofYards)].sort()).toEqual([...auditRecordSchema.options].sort());
});

test('what may be a secret is hidden, and is part of no key', async () => {
  const { rows } = await withClient(database.ownerUrl, (owner) =>
    owner.query<{ table: string; column: string }>(
      `SELECT table_name::text AS table, column_name::text AS column
       FROM information_schema.columns
       WHERE table_schema = 'public'
         AND (data_type = 'bytea' OR column_name ~ 'password|secret|hash$|token|challenge|public_key')
         AND column_name <> 'second_factor_required' AND table_name <> 'audit'`,
    ),
  );
  const suspects = rows.filter(({ table }) => triggers.some((trigger) => trigger.table === table));
  expect(suspects.length).toBeGreaterThan(7);
  for (const { table, column } of suspects) {
    if (table === 'plan' && column === 'problem_hash') continue; // of a problem, 64 bits, shown to all
    for (const trigger of triggers.filter((each) => each.table === table)) {
      expect(trigger.secrets, `${table}.${column}`).toContain(column);
      expect(trigger.key, `${table}.${column}`).not.toContain(column);
    }
  }
  expect(triggers.every(({ key }) => key.length > 0)).toBe(true);
});
