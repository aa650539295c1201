-- What Prisma cannot say of the live tables: rules, the wall, the audit.

-- ── Rules ──────────────────────────────────────────────────────────────────────────────────
DROP INDEX claim_one_open;
CREATE UNIQUE INDEX claim_one_open ON claim (yard_id, task_id)
  WHERE status IN ('open', 'working', 'paused');
ALTER TABLE claim
  DROP CONSTRAINT claim_status_times,
  ADD CONSTRAINT claim_status_times CHECK (
    CASE status
      WHEN 'open' THEN started_at IS NULL AND finished_at IS NULL AND released_at IS NULL
      WHEN 'working' THEN started_at IS NOT NULL AND finished_at IS NULL AND released_at IS NULL
      WHEN 'paused' THEN started_at IS NOT NULL AND finished_at IS NULL AND released_at IS NULL
      WHEN 'finished' THEN started_at IS NOT NULL AND finished_at >= started_at AND released_at IS NULL
      WHEN 'released' THEN released_at IS NOT NULL AND finished_at IS NULL
      WHEN 'lapsed' THEN released_at IS NOT NULL AND started_at IS NULL AND finished_at IS NULL
    END IS TRUE),
  ADD CONSTRAINT claim_override CHECK ((override_reason IS NULL) = (override_by_id IS NULL));
ALTER TABLE task
  DROP CONSTRAINT task_state_times,
  ADD CONSTRAINT task_state_times CHECK (
    CASE state
      WHEN 'waiting' THEN started_at IS NULL AND finished_at IS NULL
      WHEN 'working' THEN started_at IS NOT NULL AND (finished_at IS NULL OR finished_at >= started_at)
      WHEN 'paused' THEN started_at IS NOT NULL AND finished_at IS NULL
      WHEN 'done' THEN started_at IS NOT NULL AND finished_at IS NOT NULL AND finished_at >= started_at
      WHEN 'redo' THEN started_at IS NOT NULL AND finished_at IS NOT NULL AND finished_at >= started_at
      WHEN 'dropped' THEN started_at IS NULL AND finished_at IS NULL
    END IS TRUE),
  ADD CONSTRAINT task_portion CHECK (portion > 0),
  ADD CONSTRAINT task_left CHECK (left_minutes IS NULL OR (left_minutes >= 0 AND state <> 'waiting'));
ALTER TABLE work_span
  ADD CONSTRAINT work_span_order CHECK (end_at IS NULL OR end_at >= start_at);
-- Nobody is at one task twice at once.
CREATE UNIQUE INDEX work_span_one_open ON work_span (yard_id, task_id) WHERE end_at IS NULL;
ALTER TABLE space
  ADD CONSTRAINT space_work_percent CHECK (work_percent BETWEEN 10 AND 400);
ALTER TABLE yard
  ADD CONSTRAINT yard_undo CHECK (undo_minutes BETWEEN 0 AND 1440),
  ADD CONSTRAINT yard_lease CHECK (lease_seconds BETWEEN 1 AND 604800),
  ADD CONSTRAINT yard_publish CHECK (publish_moves_up_to IS NULL OR publish_moves_up_to >= 0);
ALTER TABLE report
  ADD CONSTRAINT report_outcome CHECK (outcome IN ('done', 'held', 'dismissed')),
  ADD CONSTRAINT report_key CHECK (key <> '' AND kind <> '');
ALTER TABLE plan_run
  ADD CONSTRAINT plan_run_purpose CHECK (purpose IN ('asked', 'disturbance'));
ALTER TABLE candidate
  ADD CONSTRAINT candidate_state CHECK (state IN ('open', 'published', 'discarded', 'superseded')),
  ADD CONSTRAINT candidate_moved CHECK (moved >= 0);
-- A yard has one candidate to decide on.
CREATE UNIQUE INDEX candidate_one_open ON candidate (yard_id) WHERE state = 'open';
ALTER TABLE snag
  ADD CONSTRAINT snag_state CHECK (state IN ('open', 'proposed', 'accepted', 'settled', 'dismissed')),
  ADD CONSTRAINT snag_area CHECK (area_m2 IS NULL OR area_m2 > 0);
ALTER TABLE snag_photo
  ADD CONSTRAINT snag_photo_type CHECK (media_type IN ('image/jpeg', 'image/png', 'image/webp')),
  ADD CONSTRAINT snag_photo_size CHECK (bytes > 0 AND width > 0 AND height > 0);
ALTER TABLE change_order
  ADD CONSTRAINT change_order_kind CHECK (kind IN ('size', 'add-part', 'drop-part')),
  ADD CONSTRAINT change_order_state CHECK (state IN ('asked', 'priced', 'accepted', 'declined', 'withdrawn'));
ALTER TABLE proposal
  ADD CONSTRAINT proposal_of CHECK ((snag_id IS NULL) <> (change_order_id IS NULL)),
  ADD CONSTRAINT proposal_state CHECK (
    state IN ('pricing', 'priced', 'unplannable', 'accepted', 'declined', 'superseded'));
ALTER TABLE rework
  ADD CONSTRAINT rework_cause CHECK (cause IN ('snag', 'missed-window', 'abandoned', 'not-kicked')),
  ADD CONSTRAINT rework_snag CHECK ((cause = 'snag') = (snag_id IS NOT NULL));
ALTER TABLE alarm
  ADD CONSTRAINT alarm_state CHECK (state IN ('armed', 'rung', 'void')),
  -- One that rang of what turned out not to be so is void, and did ring.
  ADD CONSTRAINT alarm_rung CHECK (state = 'void' OR (state = 'rung') = (rung_at IS NOT NULL));
-- Of one thing at most one alarm is to come.
CREATE UNIQUE INDEX alarm_one_armed ON alarm (yard_id, key) WHERE state = 'armed';
CREATE INDEX alarm_coming ON alarm (due_at) WHERE state = 'armed';
ALTER TABLE calendar_link
  ADD CONSTRAINT calendar_link_kind CHECK (kind IN ('builder', 'owner', 'space')),
  ADD CONSTRAINT calendar_link_space CHECK ((kind = 'space') = (space_id IS NOT NULL));

DO $$
DECLARE
  name text;
BEGIN
  FOREACH name IN ARRAY ARRAY['report', 'candidate', 'snag', 'change_order', 'proposal', 'alarm'] LOOP
    EXECUTE format('CREATE TRIGGER revision BEFORE UPDATE ON %I
                    FOR EACH ROW EXECUTE FUNCTION bump_revision()', name);
  END LOOP;
  FOREACH name IN ARRAY ARRAY['rework', 'publishing'] LOOP
    EXECUTE format('CREATE TRIGGER immutable BEFORE UPDATE OR DELETE ON %I
                    FOR EACH ROW EXECUTE FUNCTION refuse_change()', name);
    EXECUTE format('CREATE TRIGGER immutable_all BEFORE TRUNCATE ON %I
                    FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', name);
  END LOOP;
END $$;

-- The history of publishing begins with what is published.
INSERT INTO publishing (yard_id, plan_id, published_by_id, published_at)
SELECT yard_id, plan_id, published_by_id, published_at FROM published_plan;

-- What has happened so far is followed by nobody any more.
INSERT INTO log_cursor (yard_id, event_id) SELECT yard_id, max(id) FROM event GROUP BY yard_id;

-- ── The wall ───────────────────────────────────────────────────────────────────────────────
DO $$
DECLARE
  name text;
BEGIN
  FOREACH name IN ARRAY ARRAY['work_span', 'report', 'log_cursor', 'rework', 'alarm', 'alarm_receipt',
                              'calendar_item', 'publishing', 'candidate', 'proposal'] LOOP
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', name);
    EXECUTE format('CREATE POLICY of_yard ON %I USING (yard_id = (SELECT app_whole_yard()))', name);
  END LOOP;
END $$;

-- Of snags an owner sees what is to be shown, of changes all that are about the own refits. What
-- those would cost names every boat, so it is read through a door.
CREATE FUNCTION app_own_snags() RETURNS uuid[]
LANGUAGE sql STABLE SECURITY DEFINER SET search_path = pg_catalog, public, pg_temp AS $$
  SELECT coalesce(array_agg(s.id), '{}') FROM snag s
  WHERE s.yard_id = app_yard() AND s.shown_to_owner
    AND s.part_id = ANY ((SELECT app_own_parts())::text[])
$$;
DO $$
DECLARE
  name text;
  own text;
BEGIN
  FOR name, own IN VALUES
    ('snag', 'shown_to_owner AND part_id = ANY ((SELECT app_own_parts())::text[])'),
    ('snag_photo', 'snag_id = ANY ((SELECT app_own_snags())::uuid[])'),
    ('change_order', 'refit_id = ANY ((SELECT app_own_refits())::text[])') LOOP
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', name);
    EXECUTE format('CREATE POLICY read_of_yard ON %I FOR SELECT
                    USING (yard_id = (SELECT app_yard()) AND ((SELECT app_sees_all()) OR %s))', name, own);
  END LOOP;
  FOREACH name IN ARRAY ARRAY['snag', 'snag_photo', 'change_order'] LOOP
    EXECUTE format('CREATE POLICY add_of_yard ON %I FOR INSERT
                    WITH CHECK (yard_id = (SELECT app_whole_yard()))', name);
    EXECUTE format('CREATE POLICY change_of_yard ON %I FOR UPDATE
                    USING (yard_id = (SELECT app_whole_yard()))', name);
    EXECUTE format('CREATE POLICY remove_of_yard ON %I FOR DELETE
                    USING (yard_id = (SELECT app_whole_yard()))', name);
  END LOOP;
END $$;
-- An owner asks for changes of the own boats, and decides them.
CREATE POLICY ask_own ON change_order FOR INSERT
  WITH CHECK (yard_id = (SELECT app_yard()) AND raised_by_id = (SELECT app_person())
              AND refit_id = ANY ((SELECT app_own_refits())::text[]));
CREATE POLICY decide_own ON change_order FOR UPDATE
  USING (yard_id = (SELECT app_yard()) AND refit_id = ANY ((SELECT app_own_refits())::text[]));
-- Whoever made a calendar's address reads and revokes it, an owner too.
ALTER TABLE calendar_link ENABLE ROW LEVEL SECURITY;
CREATE POLICY of_yard ON calendar_link
  USING (yard_id = (SELECT app_yard())
         AND ((SELECT app_sees_all()) OR member_id = (SELECT app_person())));
ALTER TABLE push_subscription ENABLE ROW LEVEL SECURITY;
CREATE POLICY of_account ON push_subscription USING (account_id = (SELECT app_account()));

-- ── Doors ──────────────────────────────────────────────────────────────────────────────────
-- What changes of the own boats would cost, without the other boats and without the yard's money. Why
-- one cannot be planned may lie in other boats, so only that it cannot is said.
CREATE FUNCTION own_proposals()
RETURNS TABLE (id uuid, change_order_id uuid, state text, meaning jsonb, price jsonb,
               created_at timestamptz, priced_at timestamptz)
LANGUAGE sql STABLE SECURITY DEFINER SET search_path = pg_catalog, public, pg_temp AS $$
  SELECT p.id, p.change_order_id, p.state, p.meaning,
         CASE WHEN p.price IS NULL THEN NULL ELSE jsonb_build_object(
           'work', p.price -> 'work',
           'materials', p.price -> 'materials',
           'cents', NULL,
           'boats', (SELECT coalesce(jsonb_agg(b ORDER BY n), '[]')
                     FROM jsonb_array_elements(p.price -> 'boats') WITH ORDINALITY AS boats (b, n)
                     WHERE b ->> 'boatId' = ANY ((SELECT app_own_boats())::text[]))) END,
         p.created_at, p.priced_at
  FROM proposal p JOIN change_order c ON c.yard_id = p.yard_id AND c.id = p.change_order_id
  WHERE p.yard_id = app_yard() AND c.refit_id = ANY ((SELECT app_own_refits())::text[])
$$;

-- Yards whose log goes on beyond what the follower has read; ids only.
CREATE FUNCTION yards_behind() RETURNS SETOF text
LANGUAGE sql STABLE SECURITY DEFINER SET search_path = pg_catalog, public, pg_temp AS $$
  SELECT y.id FROM yard y LEFT JOIN log_cursor c ON c.yard_id = y.id
  WHERE EXISTS (SELECT FROM event e WHERE e.yard_id = y.id AND e.id > coalesce(c.event_id, 0))
$$;

-- Yards with alarms that come due before a moment; ids only.
CREATE FUNCTION yards_with_alarms(until timestamptz) RETURNS SETOF text
LANGUAGE sql STABLE SECURITY DEFINER SET search_path = pg_catalog, public, pg_temp AS $$
  SELECT DISTINCT a.yard_id FROM alarm a WHERE a.state = 'armed' AND a.due_at < until
$$;

-- Where notifications for members of the entered yard go; only the service asks.
CREATE FUNCTION push_targets(members text[])
RETURNS TABLE (id uuid, member_id text, endpoint text, p256dh text, auth text)
LANGUAGE sql STABLE SECURITY DEFINER SET search_path = pg_catalog, public, pg_temp AS $$
  SELECT s.id, m.id, s.endpoint, s.p256dh, s.auth
  FROM member m JOIN push_subscription s ON s.account_id = m.account_id
  WHERE m.yard_id = app_whole_yard() AND app_person() IS NULL AND m.id = ANY (members)
$$;

-- A browser that another account gave up by signing out: whoever shows the same keys has it now.
CREATE FUNCTION hand_over_push(address text, key text, secret text) RETURNS void
LANGUAGE sql SECURITY DEFINER SET search_path = pg_catalog, public, pg_temp AS $$
  DELETE FROM push_subscription s
  WHERE s.endpoint = address AND s.p256dh = key AND s.auth = secret
    AND s.account_id IS DISTINCT FROM app_account() AND app_account() IS NOT NULL
$$;

-- What a push service said of one: that it is gone, or that it took a message.
CREATE FUNCTION push_answered(subscription uuid, gone boolean) RETURNS void
LANGUAGE plpgsql SECURITY DEFINER SET search_path = pg_catalog, public, pg_temp AS $$
BEGIN
  IF gone THEN
    DELETE FROM push_subscription s WHERE s.id = subscription;
  ELSE
    UPDATE push_subscription s SET last_sent_at = now() WHERE s.id = subscription;
  END IF;
END $$;

-- Whose a calendar's secret is; none where it is revoked or its member may not come in any more.
CREATE FUNCTION calendar_of(secret_hash bytea)
RETURNS TABLE (yard_id text, link_id uuid, member_id text, account_id uuid, roles text[],
               kind text, space_id text)
LANGUAGE plpgsql SECURITY DEFINER SET search_path = pg_catalog, public, pg_temp AS $$
BEGIN
  UPDATE calendar_link c SET last_read_at = now()
  WHERE c.token_hash = secret_hash AND c.revoked_at IS NULL
    AND (c.last_read_at IS NULL OR c.last_read_at < now() - interval '1 minute');
  RETURN QUERY
    SELECT c.yard_id, c.id, m.id, m.account_id, m.roles::text[], c.kind, c.space_id
    FROM calendar_link c JOIN member m ON m.yard_id = c.yard_id AND m.id = c.member_id
    WHERE c.token_hash = secret_hash AND c.revoked_at IS NULL AND m.account_id IS NOT NULL;
END $$;

-- ── Commands are done once ─────────────────────────────────────────────────────────────────
-- Waits until nobody else is at a command under the same key, and keeps others from it until the
-- transaction ends; answers whether the key is free. Volatile, so that the look comes after the
-- lock with a snapshot of its own.
CREATE FUNCTION hold_key(yard text, member text, name text) RETURNS boolean
LANGUAGE plpgsql SET search_path = pg_catalog, public, pg_temp AS $$
BEGIN
  PERFORM pg_advisory_xact_lock(hashtextextended(format('curewright.key:%s:%s:%s', yard, member, name), 0));
  RETURN NOT EXISTS (SELECT FROM idempotency_key k
                     WHERE k.yard_id = yard AND k.member_id = member AND k.key = name);
END $$;

-- As before, and answers of commands that nobody repeats any more: a phone may have been away for days.
CREATE OR REPLACE FUNCTION purge_access(idle_minutes int) RETURNS int
LANGUAGE sql SECURITY DEFINER SET search_path = pg_catalog, public, pg_temp AS $$
  WITH sessions AS (DELETE FROM session
                    WHERE expires_at < now() OR last_seen_at < now() - make_interval(mins => $1)
                    RETURNING 1),
       pending AS (DELETE FROM pending_sign_in WHERE expires_at < now() RETURNING 1),
       challenges AS (DELETE FROM passkey_challenge WHERE expires_at < now() RETURNING 1),
       -- A day late: whoever runs the service can look what became of one.
       resets AS (DELETE FROM password_reset WHERE expires_at < now() - interval '1 day' RETURNING 1),
       answers AS (DELETE FROM idempotency_key WHERE created_at < now() - interval '14 days' RETURNING 1)
  SELECT count(*)::int FROM (TABLE sessions UNION ALL TABLE pending UNION ALL TABLE challenges
                             UNION ALL TABLE resets UNION ALL TABLE answers) AS gone
$$;

-- ── The audit ──────────────────────────────────────────────────────────────────────────────
-- Not here, with the reasons in tests/access/audit-tables.test.ts: work_span, report, log_cursor,
-- alarm, alarm_receipt, calendar_item.
DO $$
DECLARE
  name text;
BEGIN
  FOREACH name IN ARRAY ARRAY['snag', 'snag_photo', 'change_order', 'proposal', 'rework',
                              'candidate', 'publishing'] LOOP
    PERFORM audit_table(name);
  END LOOP;
END $$;
SELECT audit_table('calendar_link', 'to_jsonb(OLD) - ''last_read_at'' IS DISTINCT FROM to_jsonb(NEW) - ''last_read_at''');
-- With its keys anybody could write to that browser.
SELECT audit_table('push_subscription', 'to_jsonb(OLD) - ''last_sent_at'' IS DISTINCT FROM to_jsonb(NEW) - ''last_sent_at''',
  '{p256dh,auth}');
