-- The second wall: which rows the service sees. It holds for whoever does not own the tables; the
-- owner runs migrations and, through the functions marked SECURITY DEFINER, answers a few questions
-- that are asked before anybody is known. Grants of tables and functions: libs/persistence/migrate/grants.ts.
-- Their search_path ends with pg_temp, which would else come first: nobody's temporary table stands in
-- for a table of ours (manual, "Writing SECURITY DEFINER Functions Safely").

-- ── What a transaction has entered ─────────────────────────────────────────────────────────
-- Settings that end with the transaction; an empty one is none. Policies ask for them in a
-- sub-select, which the server evaluates once a statement instead of once a row.
CREATE FUNCTION app_yard() RETURNS text LANGUAGE sql STABLE PARALLEL SAFE AS $$
  SELECT nullif(current_setting('curewright.yard', true), '')
$$;
-- The member's id in that yard; none for the service itself.
CREATE FUNCTION app_person() RETURNS text LANGUAGE sql STABLE PARALLEL SAFE AS $$
  SELECT nullif(current_setting('curewright.person', true), '')
$$;
CREATE FUNCTION app_sees_all() RETURNS boolean LANGUAGE sql STABLE PARALLEL SAFE AS $$
  SELECT coalesce(current_setting('curewright.sees', true), '') = 'all'
$$;
-- The yard, for whoever is more than an owner in it: most tables show an owner nothing.
CREATE FUNCTION app_whole_yard() RETURNS text LANGUAGE sql STABLE PARALLEL SAFE AS $$
  SELECT CASE WHEN current_setting('curewright.sees', true) = 'all'
              THEN nullif(current_setting('curewright.yard', true), '') END
$$;
-- The account, where it was entered and no yard. What belongs to an account does not show in a
-- yard, where a program key may be at work in its name.
CREATE FUNCTION app_account() RETURNS uuid LANGUAGE sql STABLE PARALLEL SAFE AS $$
  SELECT CASE WHEN coalesce(current_setting('curewright.yard', true), '') = ''
              THEN nullif(current_setting('curewright.account', true), '')::uuid END
$$;

-- ── Entering ───────────────────────────────────────────────────────────────────────────────
-- A member's way in. Who it is and what they hold is read here, so a caller that forgot to ask
-- whether the account is a member, or took an owner for more, changes nothing. CW404: the account
-- is no member, whether or not there is such a yard. With a founder's id the yard must not exist
-- yet (CW409), and is kept for this transaction until it ends.
CREATE FUNCTION enter_yard(yard text, account uuid, sees text, founder text DEFAULT NULL) RETURNS void
LANGUAGE plpgsql SECURITY DEFINER SET search_path = pg_catalog, public, pg_temp AS $$
DECLARE
  person text;
  held role[];
BEGIN
  IF founder IS NULL THEN
    SELECT m.id, m.roles INTO person, held
    FROM member m WHERE m.yard_id = yard AND m.account_id = account;
    IF NOT FOUND THEN
      RAISE EXCEPTION 'there is no such yard' USING ERRCODE = 'CW404';
    END IF;
  ELSE
    PERFORM pg_advisory_xact_lock(hashtextextended('curewright.founding:' || yard, 0));
    IF EXISTS (SELECT FROM yard y WHERE y.id = yard) THEN
      RAISE EXCEPTION 'there is such a yard' USING ERRCODE = 'CW409';
    END IF;
    person := founder;
    held := ARRAY['foreman']::role[];
  END IF;
  PERFORM set_config('curewright.yard', yard, true),
          set_config('curewright.account', account::text, true),
          set_config('curewright.person', person, true),
          set_config('curewright.sees',
                     CASE WHEN held && ARRAY['foreman', 'builder']::role[] THEN sees ELSE 'own' END,
                     true);
END $$;

-- For the worker, the feed of events and the start, which act for no member.
CREATE FUNCTION enter_yard_as_service(yard text) RETURNS void
LANGUAGE plpgsql SECURITY DEFINER SET search_path = pg_catalog, public, pg_temp AS $$
BEGIN
  PERFORM set_config('curewright.yard', yard, true),
          set_config('curewright.account', '', true),
          set_config('curewright.person', '', true),
          set_config('curewright.sees', 'all', true);
END $$;

CREATE FUNCTION enter_account(account uuid) RETURNS void
LANGUAGE plpgsql SECURITY DEFINER SET search_path = pg_catalog, public, pg_temp AS $$
BEGIN
  PERFORM set_config('curewright.yard', '', true),
          set_config('curewright.account', account::text, true),
          set_config('curewright.person', '', true),
          set_config('curewright.sees', 'own', true);
END $$;

CREATE FUNCTION enter_nowhere() RETURNS void
LANGUAGE plpgsql SECURITY DEFINER SET search_path = pg_catalog, public, pg_temp AS $$
BEGIN
  PERFORM set_config('curewright.yard', '', true),
          set_config('curewright.account', '', true),
          set_config('curewright.person', '', true),
          set_config('curewright.sees', 'own', true);
END $$;

-- ── What is one's own ──────────────────────────────────────────────────────────────────────
-- Definers, since a policy that read its own table would ask itself.
CREATE FUNCTION app_own_boats() RETURNS text[]
LANGUAGE sql STABLE SECURITY DEFINER SET search_path = pg_catalog, public, pg_temp AS $$
  SELECT coalesce(array_agg(b.id), '{}') FROM boat b
  WHERE b.yard_id = app_yard() AND b.owner_id = app_person()
$$;
CREATE FUNCTION app_own_refits() RETURNS text[]
LANGUAGE sql STABLE SECURITY DEFINER SET search_path = pg_catalog, public, pg_temp AS $$
  SELECT coalesce(array_agg(r.id), '{}') FROM refit r
  WHERE r.yard_id = app_yard() AND r.boat_id = ANY ((SELECT app_own_boats())::text[])
$$;
CREATE FUNCTION app_own_parts() RETURNS text[]
LANGUAGE sql STABLE SECURITY DEFINER SET search_path = pg_catalog, public, pg_temp AS $$
  SELECT coalesce(array_agg(p.id), '{}') FROM part p
  WHERE p.yard_id = app_yard() AND p.refit_id = ANY ((SELECT app_own_refits())::text[])
$$;
CREATE FUNCTION app_own_yards() RETURNS text[]
LANGUAGE sql STABLE SECURITY DEFINER SET search_path = pg_catalog, public, pg_temp AS $$
  SELECT coalesce(array_agg(m.yard_id), '{}') FROM member m WHERE m.account_id = app_account()
$$;

-- ── Rows of a yard ─────────────────────────────────────────────────────────────────────────
-- What shows an owner nothing.
DO $$
DECLARE
  name text;
BEGIN
  FOREACH name IN ARRAY ARRAY[
    'audit', 'barrier', 'barrier_block', 'branch_link', 'branch_task', 'claim', 'claim_member',
    'compiled_problem', 'cure_table', 'delivery', 'dust_reach', 'exception_shift', 'fabric',
    'invitation', 'job_after', 'job_join', 'job_wait', 'material', 'material_version',
    'member_skill', 'observation', 'outdoor', 'plan', 'plan_placement', 'plan_placement_crew',
    'plan_refit', 'plan_run', 'procedure', 'procedure_use', 'published_plan', 'reading',
    'set_point', 'shift_exception', 'skill', 'slot_list', 'space', 'stock', 'task_branch',
    'task_choice', 'task_crew', 'task_link', 'task_tool', 'tool', 'weekly_shift'] LOOP
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', name);
    EXECUTE format('CREATE POLICY of_yard ON %I USING (yard_id = (SELECT app_whole_yard()))', name);
  END LOOP;
END $$;

-- What an owner reads: the own boats and what hangs on them, and who they are. Others read all
-- of it, and alone may write.
DO $$
DECLARE
  name text;
  own text;
BEGIN
  FOR name, own IN VALUES
    ('boat', 'owner_id = (SELECT app_person())'),
    ('refit', 'boat_id = ANY ((SELECT app_own_boats())::text[])'),
    ('part', 'refit_id = ANY ((SELECT app_own_refits())::text[])'),
    ('part_layer', 'part_id = ANY ((SELECT app_own_parts())::text[])'),
    ('job', 'part_id = ANY ((SELECT app_own_parts())::text[])'),
    ('task', 'refit_id = ANY ((SELECT app_own_refits())::text[])') LOOP
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', name);
    EXECUTE format('CREATE POLICY read_of_yard ON %I FOR SELECT
                    USING (yard_id = (SELECT app_yard()) AND ((SELECT app_sees_all()) OR %s))', name, own);
  END LOOP;
  FOREACH name IN ARRAY ARRAY['boat', 'refit', 'part', 'part_layer', 'job', 'task', 'member'] LOOP
    EXECUTE format('CREATE POLICY add_of_yard ON %I FOR INSERT
                    WITH CHECK (yard_id = (SELECT app_whole_yard()))', name);
    EXECUTE format('CREATE POLICY change_of_yard ON %I FOR UPDATE
                    USING (yard_id = (SELECT app_whole_yard()))', name);
    EXECUTE format('CREATE POLICY remove_of_yard ON %I FOR DELETE
                    USING (yard_id = (SELECT app_whole_yard()))', name);
  END LOOP;
END $$;
ALTER TABLE member ENABLE ROW LEVEL SECURITY;
CREATE POLICY read_of_yard ON member FOR SELECT USING (
  (yard_id = (SELECT app_yard()) AND ((SELECT app_sees_all()) OR id = (SELECT app_person())))
  OR account_id = (SELECT app_account()));

-- What whoever made it reads and writes, an owner too: keys for programs, answers to commands
-- kept for their repetition, and word of what they did.
DO $$
DECLARE
  name text;
  maker text;
BEGIN
  FOR name, maker IN VALUES ('program_key', 'member_id'), ('idempotency_key', 'member_id'),
                            ('event', 'by_member_id') LOOP
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', name);
    EXECUTE format('CREATE POLICY of_yard ON %I
                    USING (yard_id = (SELECT app_yard())
                           AND ((SELECT app_sees_all()) OR %I = (SELECT app_person())))', name, maker);
  END LOOP;
END $$;

ALTER TABLE yard ENABLE ROW LEVEL SECURITY;
CREATE POLICY read_yard ON yard FOR SELECT
  USING (id = (SELECT app_yard()) OR id = ANY ((SELECT app_own_yards())::text[]));
CREATE POLICY found_yard ON yard FOR INSERT WITH CHECK (id = (SELECT app_whole_yard()));
CREATE POLICY change_yard ON yard FOR UPDATE USING (id = (SELECT app_whole_yard()));
CREATE POLICY remove_yard ON yard FOR DELETE USING (id = (SELECT app_whole_yard()));

-- ── Rows of an account ─────────────────────────────────────────────────────────────────────
ALTER TABLE account ENABLE ROW LEVEL SECURITY;
CREATE POLICY of_account ON account USING (id = (SELECT app_account()));
DO $$
DECLARE
  name text;
BEGIN
  FOREACH name IN ARRAY ARRAY['session', 'pending_sign_in', 'password_reset', 'totp', 'recovery_code',
                              'passkey', 'passkey_challenge'] LOOP
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', name);
    EXECUTE format('CREATE POLICY of_account ON %I USING (account_id = (SELECT app_account()))', name);
  END LOOP;
END $$;
-- Of a sign-in nobody knows yet whose it will be; such a challenge can be written and never read,
-- only taken (`take_challenge`).
CREATE POLICY at_sign_in ON passkey_challenge FOR INSERT WITH CHECK (account_id IS NULL);

-- ── Whose a secret is ──────────────────────────────────────────────────────────────────────
-- Each takes a hash, or what is typed at a sign-in, and answers one row or none.
CREATE FUNCTION caller_of(token_hash bytea, yard text, idle_minutes int, touch boolean)
RETURNS TABLE (session_id uuid, account_id uuid, email text, name text,
               second_factor_at timestamptz, expires_at timestamptz,
               member_id text, roles text[], second_factor_required boolean)
LANGUAGE plpgsql SECURITY DEFINER SET search_path = pg_catalog, public, pg_temp AS $$
#variable_conflict use_column
DECLARE
  seen_at timestamptz;
BEGIN
  SELECT s.id, s.account_id, a.email, a.name, s.second_factor_at, s.expires_at,
         m.id, m.roles::text[], coalesce(y.second_factor_required, false), s.last_seen_at
  INTO session_id, account_id, email, name, second_factor_at, expires_at,
       member_id, roles, second_factor_required, seen_at
  FROM session s
  JOIN account a ON a.id = s.account_id
  LEFT JOIN member m ON m.yard_id = $2 AND m.account_id = a.id
  LEFT JOIN yard y ON y.id = m.yard_id
  WHERE s.token_hash = $1 AND s.expires_at > now()
    AND s.last_seen_at > now() - make_interval(mins => $3);
  IF NOT FOUND THEN RETURN; END IF;
  -- Once a minute is enough for the idle end, and spares a write a request.
  IF touch AND seen_at < now() - interval '1 minute' THEN
    UPDATE session s SET last_seen_at = now()
    WHERE s.token_hash IN (SELECT o.token_hash FROM session o WHERE o.token_hash = $1
                           FOR UPDATE SKIP LOCKED);
  END IF;
  RETURN NEXT;
END $$;

CREATE FUNCTION caller_of_key(token_hash bytea, touch boolean)
RETURNS TABLE (key_id uuid, yard_id text, member_id text, account_id uuid, email text, name text,
               roles text[], scopes text[], expires_at timestamptz)
LANGUAGE plpgsql SECURITY DEFINER SET search_path = pg_catalog, public, pg_temp AS $$
#variable_conflict use_column
DECLARE
  used_at timestamptz;
BEGIN
  SELECT k.id, k.yard_id, k.member_id, a.id, a.email, a.name, m.roles::text[], k.scopes,
         k.expires_at, k.last_used_at
  INTO key_id, yard_id, member_id, account_id, email, name, roles, scopes, expires_at, used_at
  FROM program_key k
  JOIN member m ON m.yard_id = k.yard_id AND m.id = k.member_id
  JOIN account a ON a.id = m.account_id
  WHERE k.token_hash = $1 AND k.revoked_at IS NULL AND k.expires_at > now();
  IF NOT FOUND THEN RETURN; END IF;
  IF touch AND (used_at IS NULL OR used_at < now() - interval '1 minute') THEN
    UPDATE program_key k SET last_used_at = now()
    WHERE k.token_hash IN (SELECT o.token_hash FROM program_key o WHERE o.token_hash = $1
                           FOR UPDATE SKIP LOCKED);
  END IF;
  RETURN NEXT;
END $$;

CREATE FUNCTION sign_in_account(email text)
RETURNS TABLE (account_id uuid, name text, password_hash text, has_totp boolean)
LANGUAGE sql STABLE SECURITY DEFINER SET search_path = pg_catalog, public, pg_temp AS $$
  SELECT a.id, a.name, a.password_hash,
         EXISTS (SELECT FROM totp t WHERE t.account_id = a.id AND t.confirmed_at IS NOT NULL)
  FROM account a WHERE a.email = lower($1)
$$;

CREATE FUNCTION pending_sign_in_of(token_hash bytea)
RETURNS TABLE (account_id uuid, attempts int, agent text)
LANGUAGE sql SECURITY DEFINER SET search_path = pg_catalog, public, pg_temp AS $$
  UPDATE pending_sign_in p SET attempts = p.attempts + 1
  WHERE p.token_hash = $1 AND p.expires_at > now() AND p.attempts < 5
  RETURNING p.account_id, p.attempts, p.agent
$$;

CREATE FUNCTION password_reset_known(token_hash bytea) RETURNS uuid
LANGUAGE sql STABLE SECURITY DEFINER SET search_path = pg_catalog, public, pg_temp AS $$
  SELECT p.account_id FROM password_reset p
  WHERE p.token_hash = $1 AND p.used_at IS NULL AND p.expires_at > now()
$$;
CREATE FUNCTION password_reset_of(token_hash bytea) RETURNS uuid
LANGUAGE sql SECURITY DEFINER SET search_path = pg_catalog, public, pg_temp AS $$
  UPDATE password_reset p SET used_at = now()
  WHERE p.token_hash = $1 AND p.used_at IS NULL AND p.expires_at > now()
  RETURNING p.account_id
$$;

CREATE FUNCTION invitation_of(token_hash bytea)
RETURNS TABLE (yard_id text, yard_name text, invitation_id uuid, member_id text, member_name text,
               email text, expires_at timestamptz)
LANGUAGE sql STABLE SECURITY DEFINER SET search_path = pg_catalog, public, pg_temp AS $$
  SELECT i.yard_id, y.name, i.id, i.member_id, m.name, i.email, i.expires_at
  FROM invitation i
  JOIN yard y ON y.id = i.yard_id
  JOIN member m ON m.yard_id = i.yard_id AND m.id = i.member_id
  WHERE i.token_hash = $1 AND i.accepted_at IS NULL AND i.revoked_at IS NULL
    AND i.expires_at > now() AND m.account_id IS NULL
$$;

-- The link, the member and the yard's event, or none of it. Of two who accept at once the second
-- finds the link used.
CREATE FUNCTION accept_invitation(token_hash bytea, account uuid)
RETURNS TABLE (yard_id text, member_id text)
LANGUAGE plpgsql SECURITY DEFINER SET search_path = pg_catalog, public, pg_temp AS $$
#variable_conflict use_column
DECLARE
  invited record;
BEGIN
  SELECT i.yard_id, i.id, i.member_id INTO invited FROM invitation i WHERE i.token_hash = $1;
  IF NOT FOUND THEN RETURN; END IF;
  -- The member first and then the invitation, as whoever invites or ends an access does.
  PERFORM FROM member m WHERE m.yard_id = invited.yard_id AND m.id = invited.member_id FOR UPDATE;
  PERFORM FROM invitation i
  WHERE i.token_hash = $1 AND i.accepted_at IS NULL AND i.revoked_at IS NULL AND i.expires_at > now()
  FOR UPDATE;
  IF NOT FOUND THEN RETURN; END IF;
  BEGIN
    UPDATE member m SET account_id = $2
    WHERE m.yard_id = invited.yard_id AND m.id = invited.member_id AND m.account_id IS NULL;
    IF NOT FOUND THEN RETURN; END IF;
  EXCEPTION WHEN unique_violation THEN
    -- The account is another member of the yard.
    RETURN;
  END;
  UPDATE invitation i SET accepted_at = now()
  WHERE i.yard_id = invited.yard_id AND i.id = invited.id;
  INSERT INTO event (yard_id, kind, subject, subject_id, by_member_id)
  VALUES (invited.yard_id, 'person-joined', 'person', invited.member_id, invited.member_id);
  yard_id := invited.yard_id;
  member_id := invited.member_id;
  RETURN NEXT;
END $$;

-- Keeps, until the transaction ends, what its member came in by: the membership, what the yard asks of its
-- members, and the session where one is told. Who hands out a way in (a key, an invitation) holds them
-- first: whoever ends one of them meanwhile waits, and then finds what was handed out. No row: the
-- session is over; `roles` null: the membership is. A definer, since an owner may change none of these.
CREATE FUNCTION hold_membership(session uuid)
RETURNS TABLE (roles text[], lacks_second_factor boolean)
LANGUAGE plpgsql SECURITY DEFINER SET search_path = pg_catalog, public, pg_temp AS $$
#variable_conflict use_column
DECLARE
  holder uuid := nullif(current_setting('curewright.account', true), '')::uuid;
  shown_at timestamptz;
  is_required boolean;
BEGIN
  IF $1 IS NOT NULL THEN
    SELECT s.second_factor_at INTO shown_at
    FROM session s WHERE s.id = $1 AND s.account_id = holder FOR SHARE;
    IF NOT FOUND THEN RETURN; END IF;
  END IF;
  SELECT y.second_factor_required INTO is_required FROM yard y WHERE y.id = app_yard() FOR SHARE;
  SELECT m.roles::text[] INTO roles FROM member m
  WHERE m.yard_id = app_yard() AND m.id = app_person() AND m.account_id = holder FOR SHARE;
  lacks_second_factor := $1 IS NOT NULL AND is_required AND shown_at IS NULL;
  RETURN NEXT;
END $$;

-- Ends the program keys of the account that was entered, in all its yards: an account sees no rows of
-- theirs. Answers how many. After its sessions are closed, which whoever makes a key holds meanwhile.
CREATE FUNCTION revoke_keys_of(account uuid) RETURNS int
LANGUAGE sql SECURITY DEFINER SET search_path = pg_catalog, public, pg_temp AS $$
  WITH ended AS (
    UPDATE program_key k SET revoked_at = now()
    FROM member m
    WHERE m.yard_id = k.yard_id AND m.id = k.member_id
      AND m.account_id = $1 AND $1 = app_account()
      AND k.revoked_at IS NULL AND k.expires_at > now()
    RETURNING 1)
  SELECT count(*)::int FROM ended
$$;

CREATE FUNCTION passkey_of(credential_id text)
RETURNS TABLE (account_id uuid, public_key bytea, counter bigint, transports text[])
LANGUAGE sql STABLE SECURITY DEFINER SET search_path = pg_catalog, public, pg_temp AS $$
  SELECT p.account_id, p.public_key, p.counter, p.transports FROM passkey p WHERE p.id = $1
$$;

CREATE FUNCTION take_challenge(id uuid)
RETURNS TABLE (account_id uuid, challenge text)
LANGUAGE sql SECURITY DEFINER SET search_path = pg_catalog, public, pg_temp AS $$
  WITH taken AS (DELETE FROM passkey_challenge c WHERE c.id = $1
                 RETURNING c.account_id, c.challenge, c.expires_at)
  SELECT t.account_id, t.challenge FROM taken t WHERE t.expires_at > now()
$$;

-- ── What the service asks at its start ─────────────────────────────────────────────────────
CREATE FUNCTION demo_account_exists() RETURNS text
LANGUAGE sql STABLE SECURITY DEFINER SET search_path = pg_catalog, public, pg_temp AS $$
  SELECT a.email FROM account a WHERE a.email ~ '[.](invalid|example)$' LIMIT 1
$$;
CREATE FUNCTION has_yards() RETURNS boolean
LANGUAGE sql STABLE SECURITY DEFINER SET search_path = pg_catalog, public, pg_temp AS $$
  SELECT EXISTS (SELECT FROM yard)
$$;
CREATE FUNCTION purge_access(idle_minutes int) RETURNS int
LANGUAGE sql SECURITY DEFINER SET search_path = pg_catalog, public, pg_temp AS $$
  WITH sessions AS (DELETE FROM session
                    WHERE expires_at < now() OR last_seen_at < now() - make_interval(mins => $1)
                    RETURNING 1),
       pending AS (DELETE FROM pending_sign_in WHERE expires_at < now() RETURNING 1),
       challenges AS (DELETE FROM passkey_challenge WHERE expires_at < now() RETURNING 1),
       -- A day late: whoever runs the service can look what became of one.
       resets AS (DELETE FROM password_reset WHERE expires_at < now() - interval '1 day' RETURNING 1)
  SELECT count(*)::int FROM (TABLE sessions UNION ALL TABLE pending UNION ALL TABLE challenges
                             UNION ALL TABLE resets) AS gone
$$;

-- ── What an owner reads of the published plan ──────────────────────────────────────────────
-- The sheet with the own boats alone. What may stay is named, field by field, so that what a
-- later sheet adds is kept back until somebody decides; what the shape asks for beyond that is
-- empty. Null where nothing is published.
CREATE FUNCTION own_published_sheet() RETURNS jsonb
LANGUAGE sql STABLE SECURITY DEFINER SET search_path = pg_catalog, public, pg_temp AS $$
  WITH published AS (
    SELECT pl.sheet, y.owners_see_crew, app_own_boats() AS boats
    FROM published_plan pp
    JOIN plan pl ON pl.yard_id = pp.yard_id AND pl.id = pp.plan_id
    JOIN yard y ON y.id = pp.yard_id
    WHERE pp.yard_id = app_yard()
  )
  SELECT
    (SELECT jsonb_object_agg(key, value) FROM jsonb_each(p.sheet)
     WHERE key IN ('version', 'yardId', 'yard', 'timeZone', 'currency', 'origin', 'horizon',
                   'status', 'caution'))
    || jsonb_build_object(
      'choices', '[]'::jsonb, 'ranks', '[]'::jsonb, 'moved', '[]'::jsonb, 'shopping', '[]'::jsonb,
      'materials', '[]'::jsonb, 'lateness', NULL, 'finishes', NULL,
      'money', '{"labour": 0, "overtime": 0, "slots": 0, "prices": 0, "climate": 0, "total": 0}'::jsonb,
      'boats', coalesce((
        SELECT jsonb_agg(
          (SELECT jsonb_object_agg(key, value) FROM jsonb_each(boat)
           WHERE key IN ('boatId', 'boat', 'refitId', 'refit', 'ownerId', 'promised', 'finish',
                         'earliest', 'gapMinutes', 'lateMinutes', 'tasks'))
          -- What a boat waits for may be another boat, or somebody's days off.
          || '{"chain": []}'::jsonb ORDER BY place)
        FROM jsonb_array_elements(p.sheet -> 'boats') WITH ORDINALITY AS b (boat, place)
        WHERE boat ->> 'boatId' = ANY (p.boats)), '[]'),
      'tasks', coalesce((
        SELECT jsonb_agg(
          (SELECT jsonb_object_agg(key, value) FROM jsonb_each(task)
           WHERE key IN ('id', 'name', 'refitId', 'boatId', 'boat', 'partId', 'part', 'jobId',
                         'stepId', 'spaceId', 'space', 'air', 'skill', 'material', 'state',
                         'start', 'finish', 'segments', 'cleanedDown', 'movesTo', 'film',
                         'cautions')
              OR key = 'crew' AND p.owners_see_crew)
          || '{"overtimeMinutes": 0, "slot": null, "floatMinutes": null, "windows": [], "mix": null,
               "bond": null, "consumables": [], "warnings": []}'::jsonb
          || CASE WHEN p.owners_see_crew THEN '{}'::jsonb ELSE '{"crew": []}'::jsonb END
          ORDER BY place)
        FROM jsonb_array_elements(p.sheet -> 'tasks') WITH ORDINALITY AS t (task, place)
        WHERE task ->> 'boatId' = ANY (p.boats)), '[]'))
  FROM published p
$$;

-- When the spaces that the own boats need are taken, by the published plan: by an own task, or
-- (task_id null) by others, whose work is run together so that nothing shows of whose it is or
-- how much. Of other spaces, some named after a boat, nothing is said; nothing outside the span.
CREATE FUNCTION space_occupancy(since timestamptz, until timestamptz)
RETURNS TABLE (space_id text, space_name text, start_at timestamptz, finish_at timestamptz, task_id text)
LANGUAGE sql STABLE SECURITY DEFINER SET search_path = pg_catalog, public, pg_temp AS $$
  WITH work AS (
    SELECT task ->> 'spaceId' AS space, task ->> 'space' AS name, task ->> 'id' AS id,
           task ->> 'boatId' = ANY ((SELECT app_own_boats())::text[]) AS own,
           tstzrange((task #>> '{start,at}')::timestamptz, (task #>> '{finish,at}')::timestamptz) AS span
    FROM published_plan pp
    JOIN plan pl ON pl.yard_id = pp.yard_id AND pl.id = pp.plan_id,
         jsonb_array_elements(pl.sheet -> 'tasks') AS t (task)
    WHERE pp.yard_id = app_yard()
  ), needed AS (SELECT space, min(name) AS name FROM work WHERE own GROUP BY space),
  taken AS (
    SELECT w.space, w.span * tstzrange($1, $2) AS span, w.id FROM work w WHERE w.own
    UNION ALL
    SELECT others.space, piece, NULL
    FROM (SELECT w.space, range_agg(w.span) * tstzmultirange(tstzrange($1, $2)) AS spans
          FROM work w WHERE NOT w.own GROUP BY w.space) AS others,
         unnest(others.spans) AS piece
  )
  SELECT n.space, n.name, lower(t.span), upper(t.span), t.id
  FROM taken t JOIN needed n USING (space)
  WHERE NOT isempty(t.span)
  ORDER BY n.name, n.space, lower(t.span), t.id
$$;

-- ── Word of what ends somebody's access ────────────────────────────────────────────────────
-- To every process of the service, at commit: it then ends what is open in that name.
CREATE FUNCTION access_notify() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  PERFORM pg_notify('curewright_access', CASE TG_TABLE_NAME
    WHEN 'session' THEN 'session:' || (to_jsonb(OLD) ->> 'id')
    WHEN 'program_key' THEN 'key:' || (to_jsonb(OLD) ->> 'id')
    WHEN 'member' THEN 'member:' || (to_jsonb(OLD) ->> 'yard_id') || ':' || (to_jsonb(OLD) ->> 'id')
    WHEN 'yard' THEN 'yard:' || (to_jsonb(OLD) ->> 'id')
  END);
  RETURN NULL;
END $$;
CREATE TRIGGER closed AFTER DELETE ON session
  FOR EACH ROW EXECUTE FUNCTION access_notify();
CREATE TRIGGER shortened AFTER UPDATE OF expires_at ON session
  FOR EACH ROW WHEN (OLD.expires_at IS DISTINCT FROM NEW.expires_at) EXECUTE FUNCTION access_notify();
CREATE TRIGGER gone AFTER DELETE ON member
  FOR EACH ROW EXECUTE FUNCTION access_notify();
CREATE TRIGGER changed_rights AFTER UPDATE OF roles, account_id ON member
  FOR EACH ROW WHEN (OLD.roles IS DISTINCT FROM NEW.roles
                     OR OLD.account_id IS DISTINCT FROM NEW.account_id)
  EXECUTE FUNCTION access_notify();
CREATE TRIGGER gone AFTER DELETE ON program_key
  FOR EACH ROW EXECUTE FUNCTION access_notify();
CREATE TRIGGER revoked AFTER UPDATE OF revoked_at, expires_at, scopes ON program_key
  FOR EACH ROW WHEN (OLD.revoked_at IS DISTINCT FROM NEW.revoked_at
                     OR OLD.expires_at IS DISTINCT FROM NEW.expires_at
                     OR OLD.scopes IS DISTINCT FROM NEW.scopes)
  EXECUTE FUNCTION access_notify();
CREATE TRIGGER stricter AFTER UPDATE OF second_factor_required ON yard
  FOR EACH ROW WHEN (NEW.second_factor_required AND NOT OLD.second_factor_required)
  EXECUTE FUNCTION access_notify();
