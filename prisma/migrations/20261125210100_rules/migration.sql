-- What the Prisma schema cannot say. Every constraint has a name that the service maps to
-- an error; keep them when a table changes.

-- Trusted since PostgreSQL 13: the owner of the database may install it.
CREATE EXTENSION IF NOT EXISTS btree_gist;

-- ── Ids chosen by the yard are readable and safe in the path of a URL ──────────────────────
ALTER TABLE yard      ADD CONSTRAINT yard_id_shape      CHECK (id ~ '^[a-z0-9][a-z0-9._-]{0,119}$');
ALTER TABLE skill     ADD CONSTRAINT skill_id_shape     CHECK (id ~ '^[a-z0-9][a-z0-9._-]{0,119}$');
ALTER TABLE member    ADD CONSTRAINT member_id_shape    CHECK (id ~ '^[a-z0-9][a-z0-9._-]{0,119}$');
ALTER TABLE space     ADD CONSTRAINT space_id_shape     CHECK (id ~ '^[a-z0-9][a-z0-9._-]{0,119}$');
ALTER TABLE tool      ADD CONSTRAINT tool_id_shape      CHECK (id ~ '^[a-z0-9][a-z0-9._-]{0,119}$');
ALTER TABLE material  ADD CONSTRAINT material_id_shape  CHECK (id ~ '^[a-z0-9][a-z0-9._-]{0,119}$');
ALTER TABLE procedure ADD CONSTRAINT procedure_id_shape CHECK (id ~ '^[a-z0-9][a-z0-9._-]{0,119}$');
ALTER TABLE boat      ADD CONSTRAINT boat_id_shape      CHECK (id ~ '^[a-z0-9][a-z0-9._-]{0,119}$');
ALTER TABLE refit     ADD CONSTRAINT refit_id_shape     CHECK (id ~ '^[a-z0-9][a-z0-9._-]{0,119}$');
ALTER TABLE part      ADD CONSTRAINT part_id_shape      CHECK (id ~ '^[a-z0-9][a-z0-9._-]{0,119}$');
ALTER TABLE job       ADD CONSTRAINT job_id_shape       CHECK (id ~ '^[a-z0-9][a-z0-9._-]{0,119}$');

-- ── Sign-in ────────────────────────────────────────────────────────────────────────────────
ALTER TABLE account
  ADD CONSTRAINT account_email_lower CHECK (email = lower(email) AND email <> '');
ALTER TABLE session
  ADD CONSTRAINT session_token_sha256 CHECK (octet_length(token_hash) = 32),
  ADD CONSTRAINT session_span CHECK (expires_at > created_at);

-- ── Yard and people ────────────────────────────────────────────────────────────────────────
ALTER TABLE yard
  ADD CONSTRAINT yard_horizon CHECK (horizon_days BETWEEN 1 AND 366),
  ADD CONSTRAINT yard_time_zone CHECK (time_zone <> '');
ALTER TABLE member
  ADD CONSTRAINT member_roles CHECK (cardinality(roles) > 0 AND array_position(roles, NULL) IS NULL);
ALTER TABLE member_skill
  ADD CONSTRAINT member_skill_level CHECK (level BETWEEN 1 AND 3),
  ADD CONSTRAINT member_skill_speed CHECK (speed BETWEEN 10 AND 300);

-- Minutes of the week. Sunday's night shift goes on into Monday, so a shift may be two ranges.
CREATE FUNCTION week_span(weekday int, from_minute int, to_minute int) RETURNS int4multirange
LANGUAGE sql IMMUTABLE PARALLEL SAFE AS $$
  SELECT CASE
    WHEN until <= 10080 THEN int4multirange(int4range(since, until))
    ELSE int4multirange(int4range(since, 10080), int4range(0, until - 10080))
  END
  FROM (SELECT (weekday - 1) * 1440 + from_minute AS since) AS a,
  LATERAL (SELECT since - from_minute + to_minute
                  + CASE WHEN to_minute <= from_minute THEN 1440 ELSE 0 END AS until) AS b
$$;

-- Minutes since 2000-01-01 on the yard's calendar, as if every day had 1440.
CREATE FUNCTION date_span(day date, from_minute int, to_minute int) RETURNS int8range
LANGUAGE sql IMMUTABLE PARALLEL SAFE AS $$
  SELECT int8range(
    (day - DATE '2000-01-01') * 1440::bigint + from_minute,
    (day - DATE '2000-01-01') * 1440::bigint + to_minute
      + CASE WHEN to_minute <= from_minute THEN 1440 ELSE 0 END)
$$;

ALTER TABLE weekly_shift
  ADD CONSTRAINT weekly_shift_weekday CHECK (weekday BETWEEN 1 AND 7),
  ADD CONSTRAINT weekly_shift_minutes
    CHECK (from_minute BETWEEN 0 AND 1439 AND to_minute BETWEEN 0 AND 1439),
  ADD CONSTRAINT weekly_shift_breaks
    CHECK (cardinality(break_from) = cardinality(break_to)
           AND 0 <= ALL (break_from || break_to) AND 1439 >= ALL (break_from || break_to)),
  ADD CONSTRAINT weekly_shift_overlap EXCLUDE USING gist (
    yard_id WITH =, member_id WITH =, week_span(weekday, from_minute, to_minute) WITH &&);
ALTER TABLE exception_shift
  ADD CONSTRAINT exception_shift_minutes
    CHECK (from_minute BETWEEN 0 AND 1439 AND to_minute BETWEEN 0 AND 1439),
  ADD CONSTRAINT exception_shift_breaks
    CHECK (cardinality(break_from) = cardinality(break_to)
           AND 0 <= ALL (break_from || break_to) AND 1439 >= ALL (break_from || break_to)),
  ADD CONSTRAINT exception_shift_overlap EXCLUDE USING gist (
    yard_id WITH =, member_id WITH =, date_span(date, from_minute, to_minute) WITH &&);

-- ── Spaces, tools, materials, procedures ───────────────────────────────────────────────────
ALTER TABLE space
  ADD CONSTRAINT space_room CHECK (room BETWEEN 1 AND 1000),
  ADD CONSTRAINT space_settling CHECK (settling_minutes BETWEEN 0 AND 1440),
  ADD CONSTRAINT space_climate CHECK (
    CASE climate
      WHEN 'heated' THEN lag_hours IS NULL AND warmer_by IS NULL
      WHEN 'outdoors' THEN lag_hours IS NOT NULL AND lag_hours >= 0 AND warmer_by IS NOT NULL
    END);
ALTER TABLE set_point
  ADD CONSTRAINT set_point_weekdays
    CHECK (cardinality(weekdays) > 0 AND weekdays <@ ARRAY[1, 2, 3, 4, 5, 6, 7]),
  ADD CONSTRAINT set_point_minute CHECK (from_minute BETWEEN 0 AND 1439),
  ADD CONSTRAINT set_point_celsius CHECK (celsius BETWEEN -60 AND 200);
ALTER TABLE tool
  ADD CONSTRAINT tool_count CHECK (count BETWEEN 1 AND 1000);
ALTER TABLE outdoor
  ADD CONSTRAINT outdoor_celsius
    CHECK (cardinality(celsius) BETWEEN 1 AND 9600 AND -60 <= ALL (celsius) AND 200 >= ALL (celsius));
ALTER TABLE material
  ADD CONSTRAINT material_resin_system CHECK (resin_system IN ('polyester', 'vinyl-ester', 'epoxy')),
  ADD CONSTRAINT material_below_minimum CHECK (below_minimum IN ('stalls', 'spoils')),
  ADD CONSTRAINT material_temperatures CHECK (minimum_c <= maximum_c);

CREATE FUNCTION is_milestone(name text) RETURNS boolean
LANGUAGE sql IMMUTABLE PARALLEL SAFE AS $$
  SELECT name IN ('pot-life', 'open-time', 'gel', 'tacky-opens', 'tacky-closes', 'bond-opens',
                  'bond-closes', 'tack-free', 'dust-safe', 'handle', 'sandable', 'cured')
$$;

ALTER TABLE cure_table
  ADD CONSTRAINT cure_table_milestone CHECK (is_milestone(milestone)),
  ADD CONSTRAINT cure_table_rows
    CHECK (cardinality(celsius) > 0 AND cardinality(celsius) = cardinality(minutes)
           AND 0 < ALL (minutes));
ALTER TABLE procedure
  ADD CONSTRAINT procedure_version CHECK (version >= 1),
  ADD CONSTRAINT procedure_body CHECK (jsonb_typeof(body) = 'object');
ALTER TABLE procedure_use
  ADD CONSTRAINT procedure_use_one CHECK (num_nonnulls(skill_id, material_id, space_id, tool_id) = 1);

-- ── Boats to jobs ──────────────────────────────────────────────────────────────────────────
ALTER TABLE refit
  ADD CONSTRAINT refit_promised CHECK (promised > release),
  ADD CONSTRAINT refit_weight CHECK (weight BETWEEN 1 AND 1000);
ALTER TABLE part
  ADD CONSTRAINT part_sizes CHECK (area_m2 >= 0 AND edge_m >= 0 AND joint_m >= 0);
ALTER TABLE job_after
  ADD CONSTRAINT job_after_other CHECK (job_id <> after_id);

-- ── Workload ───────────────────────────────────────────────────────────────────────────────
ALTER TABLE task
  ADD CONSTRAINT task_work CHECK (work_minutes >= 1 AND floor_minutes >= 0),
  ADD CONSTRAINT task_level CHECK (min_level BETWEEN 1 AND 3),
  ADD CONSTRAINT task_crew_size CHECK (crew_min >= 1 AND crew_min <= crew_max),
  ADD CONSTRAINT task_wet_material CHECK (air <> 'wet' OR material_id IS NOT NULL),
  ADD CONSTRAINT task_state_times CHECK (
    CASE state
      WHEN 'waiting' THEN started_at IS NULL AND finished_at IS NULL
      WHEN 'working' THEN started_at IS NOT NULL AND (finished_at IS NULL OR finished_at >= started_at)
      WHEN 'done' THEN started_at IS NOT NULL AND finished_at IS NOT NULL AND finished_at >= started_at
    END);
ALTER TABLE task_tool
  ADD CONSTRAINT task_tool_count CHECK (count >= 1);
ALTER TABLE task_link
  ADD CONSTRAINT task_link_other CHECK (from_task_id <> to_task_id),
  ADD CONSTRAINT task_link_opens
    CHECK (num_nonnulls(opens_minutes, opens_milestone) <= 1
           AND opens_minutes >= 0 IS NOT FALSE AND is_milestone(opens_milestone) IS NOT FALSE),
  ADD CONSTRAINT task_link_closes
    CHECK (num_nonnulls(closes_minutes, closes_milestone) <= 1
           AND closes_minutes >= 0 IS NOT FALSE AND is_milestone(closes_milestone) IS NOT FALSE);

-- ── Plans ──────────────────────────────────────────────────────────────────────────────────
ALTER TABLE plan_run
  ADD CONSTRAINT plan_run_limits
    CHECK (seconds > 0 IS NOT FALSE AND iterations > 0 IS NOT FALSE AND attempts >= 0),
  ADD CONSTRAINT plan_run_status_times CHECK (
    CASE status
      WHEN 'queued' THEN finished_at IS NULL
      WHEN 'running' THEN started_at IS NOT NULL AND finished_at IS NULL
      ELSE finished_at IS NOT NULL
    END),
  ADD CONSTRAINT plan_run_error CHECK (status <> 'failed' OR error IS NOT NULL);
ALTER TABLE compiled_problem
  ADD CONSTRAINT compiled_problem_hash CHECK (hash ~ '^[0-9a-f]{16}$');
ALTER TABLE plan
  ADD CONSTRAINT plan_status CHECK (status IN ('optimal', 'feasible')),
  ADD CONSTRAINT plan_values CHECK (lateness >= 0 AND finishes >= 0);
ALTER TABLE plan_placement
  ADD CONSTRAINT plan_placement_span CHECK (finish_at >= start_at),
  ADD CONSTRAINT plan_placement_segments CHECK (cardinality(segment_starts) = cardinality(segment_ends));

-- ── Claims and commands ────────────────────────────────────────────────────────────────────
CREATE UNIQUE INDEX claim_one_open ON claim (yard_id, task_id) WHERE status IN ('open', 'working');
ALTER TABLE claim
  ADD CONSTRAINT claim_status_times CHECK (
    CASE status
      WHEN 'open' THEN started_at IS NULL AND finished_at IS NULL AND released_at IS NULL
      WHEN 'working' THEN started_at IS NOT NULL AND finished_at IS NULL AND released_at IS NULL
      WHEN 'finished' THEN started_at IS NOT NULL AND finished_at >= started_at AND released_at IS NULL
      WHEN 'released' THEN released_at IS NOT NULL AND finished_at IS NULL
    END IS TRUE);
ALTER TABLE event
  ADD CONSTRAINT event_kind CHECK (kind <> '' AND subject <> '' AND subject_id <> '');
ALTER TABLE idempotency_key
  ADD CONSTRAINT idempotency_key_done CHECK ((status IS NULL) = (completed_at IS NULL));

-- ── Revisions: one writer of the number, whoever updates ───────────────────────────────────
CREATE FUNCTION bump_revision() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  NEW.revision := OLD.revision + 1;
  RETURN NEW;
END $$;
CREATE FUNCTION bump_revision_and_time() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  NEW.revision := OLD.revision + 1;
  NEW.updated_at := clock_timestamp();
  RETURN NEW;
END $$;

DO $$
DECLARE
  name text;
BEGIN
  FOREACH name IN ARRAY ARRAY['skill', 'tool', 'outdoor', 'job', 'published_plan'] LOOP
    EXECUTE format('CREATE TRIGGER revision BEFORE UPDATE ON %I
                    FOR EACH ROW EXECUTE FUNCTION bump_revision()', name);
  END LOOP;
  FOREACH name IN ARRAY ARRAY['account', 'yard', 'member', 'space', 'material', 'boat', 'refit',
                              'part', 'task', 'plan_run', 'claim'] LOOP
    EXECUTE format('CREATE TRIGGER revision BEFORE UPDATE ON %I
                    FOR EACH ROW EXECUTE FUNCTION bump_revision_and_time()', name);
  END LOOP;
END $$;

-- ── What never changes ─────────────────────────────────────────────────────────────────────
CREATE FUNCTION refuse_change() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  RAISE EXCEPTION '% of % is refused: its rows never change', TG_OP, TG_TABLE_NAME
    USING ERRCODE = 'restrict_violation', CONSTRAINT = TG_TABLE_NAME || '_immutable';
END $$;

DO $$
DECLARE
  name text;
BEGIN
  FOREACH name IN ARRAY ARRAY['compiled_problem', 'plan', 'plan_refit', 'plan_placement',
                              'plan_placement_crew', 'event'] LOOP
    EXECUTE format('CREATE TRIGGER immutable BEFORE UPDATE OR DELETE ON %I
                    FOR EACH ROW EXECUTE FUNCTION refuse_change()', name);
    EXECUTE format('CREATE TRIGGER immutable_all BEFORE TRUNCATE ON %I
                    FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', name);
  END LOOP;
  -- A version that no job uses may be deleted, but none may be changed.
  FOREACH name IN ARRAY ARRAY['procedure', 'procedure_use'] LOOP
    EXECUTE format('CREATE TRIGGER immutable BEFORE UPDATE ON %I
                    FOR EACH ROW EXECUTE FUNCTION refuse_change()', name);
  END LOOP;
END $$;

-- A plan is complete when its transaction ends: no row is added to it later.
CREATE FUNCTION refuse_later_rows() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF NOT EXISTS (SELECT FROM plan WHERE yard_id = NEW.yard_id AND id = NEW.plan_id
                 AND xmin = pg_current_xact_id()::xid) THEN
    RAISE EXCEPTION 'plan % is complete', NEW.plan_id
      USING ERRCODE = 'restrict_violation', CONSTRAINT = 'plan_complete';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER complete BEFORE INSERT ON plan_refit
  FOR EACH ROW EXECUTE FUNCTION refuse_later_rows();
CREATE TRIGGER complete BEFORE INSERT ON plan_placement
  FOR EACH ROW EXECUTE FUNCTION refuse_later_rows();
CREATE TRIGGER complete BEFORE INSERT ON plan_placement_crew
  FOR EACH ROW EXECUTE FUNCTION refuse_later_rows();

-- ── Events ─────────────────────────────────────────────────────────────────────────────────
-- The lock is held until the transaction ends, so the ids of one yard become visible in
-- ascending order. Write events last in a transaction: it waits for the others here.
CREATE FUNCTION event_in_order() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  PERFORM pg_advisory_xact_lock(hashtextextended('curewright.event:' || NEW.yard_id, 0));
  NEW.id := nextval('event_id_seq');
  RETURN NEW;
END $$;
CREATE TRIGGER in_order BEFORE INSERT ON event
  FOR EACH ROW EXECUTE FUNCTION event_in_order();

CREATE FUNCTION event_notify() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  PERFORM pg_notify('curewright_event', NEW.yard_id || ':' || NEW.id);
  RETURN NULL;
END $$;
CREATE TRIGGER notify AFTER INSERT ON event
  FOR EACH ROW EXECUTE FUNCTION event_notify();
