-- Every change of every row that the service may change, written by triggers when the
-- transaction ends. The service may read it, as far as row security lets it, and no more: the
-- rows are inserted by a function that belongs to the owner of the schema, and hang on triggers
-- that only the owner can take off.

-- ── The chain ──────────────────────────────────────────────────────────────────────────────
-- Length before text, so that no two rows have the same fields: octets of UTF-8, or `-` for null.
-- Stable and bare, so that it is inlined; its one caller has the search path set.
CREATE FUNCTION audit_field(value text) RETURNS text LANGUAGE sql STABLE AS $$
  SELECT coalesce(octet_length(convert_to(value, 'UTF8')) || ':' || value, '-')
$$;

-- SHA-256 (FIPS 180-4) over the hash of the row before (nothing before the first) and the row's
-- canonical text: the name of the format and ten fields, one a line. JSON is as `jsonb` prints it.
-- libs/persistence/audit/chain.ts says the same independently.
CREATE FUNCTION audit_hash(previous bytea, entry audit) RETURNS bytea
LANGUAGE sql STABLE AS $$
  SELECT sha256(coalesce(previous, ''::bytea) || convert_to(
    concat_ws(E'\n',
      'curewright-audit-1',
      audit_field(entry.chain),
      audit_field(entry.number::text),
      audit_field(to_char(entry.at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"')),
      audit_field(entry.account_id::text),
      audit_field(entry.member_id),
      audit_field(entry.change),
      audit_field(entry.record),
      audit_field(entry.key::text),
      audit_field(entry.before::text),
      audit_field(entry.after::text)),
    'UTF8'))
$$;

-- A secret is shown as being there, and as another one than before.
CREATE FUNCTION audit_shown(whole jsonb, other jsonb, secrets text[]) RETURNS jsonb
LANGUAGE plpgsql IMMUTABLE AS $$
DECLARE
  name text;
  shown jsonb := whole;
BEGIN
  FOREACH name IN ARRAY secrets LOOP
    CONTINUE WHEN whole ->> name IS NULL;
    shown := shown || jsonb_build_object(name,
      CASE WHEN other ->> name <> whole ->> name THEN 'hidden, changed' ELSE 'hidden' END);
  END LOOP;
  RETURN shown;
END $$;

-- ── The writer ─────────────────────────────────────────────────────────────────────────────
-- Arguments: the column that holds the yard (empty: none, an account's), the columns of the key,
-- those that are secrets, those that are left out; the last three as text[].
--
-- Deferred, so that the lock of the chain is the last one that a transaction takes, and held for
-- the length of a commit only. A transaction that writes to the accounts' chain takes that lock
-- first and its yard's second (`audit_accounts`): in one order always, there is no deadlock.
--
-- Who: what the transaction entered as (`enter_yard` and its kin). One that entered as an account
-- and thereby changed a yard (an invitation accepted) is the member that the account is there.
CREATE FUNCTION audit_row() RETURNS trigger
LANGUAGE plpgsql SECURITY DEFINER SET search_path = pg_catalog, public, pg_temp SET timezone = 'UTC' AS $$
DECLARE
  secrets constant text[] := TG_ARGV[2];
  left_out constant text[] := TG_ARGV[3];
  entry audit;
  whole jsonb;
  was jsonb;
  becomes jsonb;
  previous bytea;
BEGIN
  IF TG_TABLE_SCHEMA <> 'public' THEN
    RAISE EXCEPTION 'the audit is of tables of the schema public only';
  END IF;
  IF TG_OP <> 'INSERT' THEN was := to_jsonb(OLD) - left_out; END IF;
  IF TG_OP <> 'DELETE' THEN becomes := to_jsonb(NEW) - left_out; END IF;
  whole := coalesce(was, becomes);

  entry.yard_id := CASE WHEN TG_ARGV[0] <> '' THEN whole ->> TG_ARGV[0] END;
  entry.chain := coalesce(entry.yard_id, '');
  entry.change := lower(TG_OP);
  entry.record := TG_TABLE_NAME;
  entry.key := (SELECT jsonb_object_agg(name, whole -> name) FROM unnest(TG_ARGV[1]::text[]) AS name);
  entry.before := audit_shown(was, NULL, secrets);
  entry.after := audit_shown(becomes, was, secrets);
  entry.account_id := nullif(current_setting('curewright.account', true), '')::uuid;
  IF entry.yard_id = current_setting('curewright.yard', true) THEN
    entry.member_id := nullif(current_setting('curewright.person', true), '');
  END IF;
  IF entry.member_id IS NULL AND entry.account_id IS NOT NULL THEN
    SELECT id INTO entry.member_id FROM member
    WHERE yard_id = entry.yard_id AND account_id = entry.account_id;
  END IF;

  IF current_setting('curewright.audit_accounts', true) = 'on' THEN
    PERFORM pg_advisory_xact_lock(hashtextextended('curewright.audit:', 0));
  END IF;
  PERFORM pg_advisory_xact_lock(hashtextextended('curewright.audit:' || entry.chain, 0));
  SELECT last.number + 1, last.hash INTO entry.number, previous FROM audit AS last
  WHERE last.chain = entry.chain ORDER BY last.number DESC LIMIT 1;
  entry.number := coalesce(entry.number, 1);
  entry.at := date_trunc('milliseconds', clock_timestamp());
  entry.hash := audit_hash(previous, entry);
  -- Above READ COMMITTED the newest row may be out of sight. Then the number is taken, which the
  -- server reports as a serialization failure (40001) only if told to do nothing about it.
  INSERT INTO audit SELECT entry.* ON CONFLICT DO NOTHING;
  IF NOT FOUND THEN
    RAISE EXCEPTION 'the chain "%" has a change % already', entry.chain, entry.number;
  END IF;
  RETURN NULL;
END $$;

-- Once a statement, long before the commit: tells the writer which lock comes first.
CREATE FUNCTION audit_accounts() RETURNS trigger
LANGUAGE plpgsql SET search_path = pg_catalog, public AS $$
BEGIN
  PERFORM set_config('curewright.audit_accounts', 'on', true);
  RETURN NULL;
END $$;

-- ── What is audited ────────────────────────────────────────────────────────────────────────
-- For this migration and those after it: a new table calls it once. `worth` says which updates
-- are worth a row. Whatever is stored as bytes is a secret here.
CREATE FUNCTION audit_table(
  target text,
  worth text DEFAULT 'OLD.* IS DISTINCT FROM NEW.*',
  left_out text[] DEFAULT '{}'
) RETURNS void
LANGUAGE plpgsql SET search_path = pg_catalog, public AS $$
DECLARE
  columns text[];
  secrets text[];
  primary_key text[];
  key text[];
  yard_column text;
  hung text;
BEGIN
  SELECT array_agg(attname ORDER BY attnum),
         coalesce(array_agg(attname ORDER BY attnum) FILTER (
           WHERE atttypid = 'bytea'::regtype OR attname IN ('password_hash', 'challenge')), '{}')
  INTO columns, secrets
  FROM pg_attribute
  WHERE attrelid = format('public.%I', target)::regclass AND attnum > 0 AND NOT attisdropped;

  SELECT array_agg(attname ORDER BY place) INTO primary_key
  FROM pg_constraint, unnest(conkey) WITH ORDINALITY AS of_key (attnum, place)
  JOIN pg_attribute USING (attnum)
  WHERE conrelid = format('public.%I', target)::regclass AND contype = 'p' AND attrelid = conrelid
    AND attname <> ALL (secrets);

  -- The yard stands beside the key already, and is it where a yard has one row only.
  key := array_remove(primary_key, 'yard_id');
  key := coalesce(nullif(key, '{}'), primary_key,
                  CASE WHEN 'id' = ANY (columns) THEN '{id}' ELSE '{account_id}' END::text[]);
  yard_column := CASE WHEN target = 'yard' THEN 'id'
                      WHEN 'yard_id' = ANY (columns) THEN 'yard_id' ELSE '' END;

  hung := format('DEFERRABLE INITIALLY DEFERRED FOR EACH ROW %%s EXECUTE FUNCTION audit_row(%L, %L, %L, %L)',
                 yard_column, key, secrets, left_out);
  EXECUTE format('CREATE CONSTRAINT TRIGGER audit AFTER INSERT OR DELETE ON public.%I ' || hung,
                 target, '');
  EXECUTE format('CREATE CONSTRAINT TRIGGER audit_update AFTER UPDATE ON public.%I ' || hung,
                 target, format('WHEN (%s)', worth));
  IF yard_column = '' THEN
    EXECUTE format('CREATE TRIGGER audit_accounts AFTER INSERT OR UPDATE OR DELETE ON public.%I
                    FOR EACH STATEMENT EXECUTE FUNCTION audit_accounts()', target);
  END IF;
END $$;

-- Not here, with the reasons in tests/access/audit.test.ts: event, compiled_problem, plan_refit,
-- plan_placement, plan_placement_crew, procedure_use, idempotency_key, rate_limit,
-- passkey_challenge, the queue.
DO $$
DECLARE
  name text;
BEGIN
  FOREACH name IN ARRAY ARRAY[
    'yard', 'skill', 'member', 'member_skill', 'weekly_shift', 'shift_exception',
    'exception_shift', 'invitation',
    'space', 'set_point', 'dust_reach', 'outdoor', 'tool', 'stock', 'barrier', 'barrier_block',
    'slot_list', 'delivery',
    'material', 'material_version', 'cure_table', 'fabric', 'reading', 'observation', 'procedure',
    'boat', 'refit', 'part', 'part_layer', 'job', 'job_after', 'job_join', 'job_wait',
    'task', 'task_crew', 'task_tool', 'task_link', 'task_choice', 'task_branch', 'branch_task',
    'branch_link', 'claim', 'claim_member', 'published_plan',
    'account', 'pending_sign_in', 'password_reset', 'totp', 'recovery_code', 'passkey'
  ] LOOP
    PERFORM audit_table(name);
  END LOOP;
END $$;

-- When they were used last is no change of theirs, and would be a row a minute.
SELECT audit_table('session', 'to_jsonb(OLD) - ''last_seen_at'' IS DISTINCT FROM to_jsonb(NEW) - ''last_seen_at''');
SELECT audit_table('program_key', 'to_jsonb(OLD) - ''last_used_at'' IS DISTINCT FROM to_jsonb(NEW) - ''last_used_at''');
-- Its progress is no change; that it began, ended or was told to stop is one.
SELECT audit_table('plan_run', 'OLD.status IS DISTINCT FROM NEW.status
  OR OLD.stop_requested_at IS DISTINCT FROM NEW.stop_requested_at');
-- The engine's answer never changes, and is large.
SELECT audit_table('plan', left_out => '{sheet,map,bounds,chains,floats}');

-- ── What is written stays ──────────────────────────────────────────────────────────────────
CREATE TRIGGER immutable BEFORE UPDATE OR DELETE ON audit
  FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER immutable_all BEFORE TRUNCATE ON audit
  FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

-- To hang a trigger on a table of one's own takes the right to execute its function: nobody but
-- the owner has it. The triggers above run for whoever writes.
REVOKE EXECUTE ON FUNCTION audit_row(), audit_accounts(), audit_table(text, text, text[]),
  audit_hash(bytea, audit), audit_field(text), audit_shown(jsonb, jsonb, text[]) FROM PUBLIC;
