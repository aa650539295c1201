-- What an owner reads of the plans that were published before: the same part of each sheet as of the
-- published one, and why the yard planned anew, as far as that is about the own boats.

-- A sheet with the own boats alone. What may stay is named, field by field, so that what a later
-- sheet adds is kept back until somebody decides; what the shape asks for beyond that is empty.
CREATE FUNCTION own_part_of(sheet jsonb) RETURNS jsonb
LANGUAGE sql STABLE SECURITY DEFINER SET search_path = pg_catalog, public, pg_temp AS $$
  WITH own AS (SELECT y.owners_see_crew, app_own_boats() AS boats FROM yard y WHERE y.id = app_yard())
  SELECT
    (SELECT jsonb_object_agg(key, value) FROM jsonb_each($1)
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
        FROM jsonb_array_elements($1 -> 'boats') WITH ORDINALITY AS b (boat, place)
        WHERE boat ->> 'boatId' = ANY (own.boats)), '[]'),
      'tasks', coalesce((
        SELECT jsonb_agg(
          (SELECT jsonb_object_agg(key, value) FROM jsonb_each(task)
           WHERE key IN ('id', 'name', 'refitId', 'boatId', 'boat', 'partId', 'part', 'jobId',
                         'stepId', 'spaceId', 'space', 'air', 'skill', 'material', 'state',
                         'start', 'finish', 'segments', 'cleanedDown', 'movesTo', 'film',
                         'cautions')
              OR key = 'crew' AND own.owners_see_crew)
          || '{"overtimeMinutes": 0, "slot": null, "floatMinutes": null, "windows": [], "mix": null,
               "bond": null, "consumables": [], "warnings": []}'::jsonb
          || CASE WHEN own.owners_see_crew THEN '{}'::jsonb ELSE '{"crew": []}'::jsonb END
          ORDER BY place)
        FROM jsonb_array_elements($1 -> 'tasks') WITH ORDINALITY AS t (task, place)
        WHERE task ->> 'boatId' = ANY (own.boats)), '[]'))
  FROM own
$$;

CREATE OR REPLACE FUNCTION own_published_sheet() RETURNS jsonb
LANGUAGE sql STABLE SECURITY DEFINER SET search_path = pg_catalog, public, pg_temp AS $$
  SELECT own_part_of(pl.sheet)
  FROM published_plan pp JOIN plan pl ON pl.yard_id = pp.yard_id AND pl.id = pp.plan_id
  WHERE pp.yard_id = app_yard()
$$;

-- A sentence of why the yard planned anew, as the owner of a boat may read it: about an own boat, and
-- with no other boat in it; without people where the yard does not show them; without what somebody wrote
-- for the yard as the reason, for that may say anything of anybody. Null: not theirs to read.
CREATE FUNCTION own_cause(told text) RETURNS text
LANGUAGE sql STABLE SECURITY DEFINER SET search_path = pg_catalog, public, pg_temp AS $$
  SELECT CASE
    WHEN NOT EXISTS (
      SELECT FROM boat b
      WHERE b.yard_id = app_yard() AND b.id = ANY ((SELECT app_own_boats())::text[])
        AND (starts_with(line, b.name || ': ')
             OR line LIKE '"%' AND position(' (' || b.name || ', ' IN line) > 0)) THEN NULL
    WHEN EXISTS (
      SELECT FROM boat b
      WHERE b.yard_id = app_yard() AND b.id <> ALL ((SELECT app_own_boats())::text[])
        AND position(lower(b.name) IN lower(line)) > 0) THEN NULL
    WHEN (SELECT y.owners_see_crew FROM yard y WHERE y.id = app_yard()) OR NOT EXISTS (
      SELECT FROM member m
      WHERE m.yard_id = app_yard() AND position(lower(m.name) IN lower(line)) > 0) THEN line
    ELSE substring(line FROM '^"[^"]*" \([^()]*\)') || ' did not go as planned.'
  END
  FROM (SELECT regexp_replace(
    $1, '^(".*?" \(.*?\) (was given up|has to be done again, for its batch did not kick)): .*$', '\1.'
  ) AS line) AS own_words
$$;

-- Of each day (of the yard's zone) since a moment what was published last, with why of all that was
-- published on it, and of the time before the last alone, to hold it against. `others`: there were
-- reasons that are not told.
CREATE FUNCTION own_publishings(since timestamptz)
RETURNS TABLE (published_at timestamptz, sheet jsonb, causes jsonb, others boolean)
LANGUAGE sql STABLE SECURITY DEFINER SET search_path = pg_catalog, public, pg_temp AS $$
  WITH told AS (
    SELECT p.plan_id, p.published_at,
           CASE WHEN p.published_at >= $1 THEN (p.published_at AT TIME ZONE y.time_zone)::date END AS day
    FROM publishing p JOIN yard y ON y.id = p.yard_id
    WHERE p.yard_id = app_yard() AND cardinality(app_own_boats()) > 0
  ), last AS (
    SELECT DISTINCT ON (day) plan_id, published_at, day FROM told ORDER BY day, published_at DESC
  ), because AS (
    SELECT t.day, own_cause(line) AS line, t.published_at, place
    FROM told t JOIN candidate c ON c.yard_id = app_yard() AND c.plan_id = t.plan_id,
         jsonb_array_elements_text(c.cause) WITH ORDINALITY AS l (line, place)
    WHERE t.day IS NOT NULL
  )
  SELECT l.published_at, own_part_of(pl.sheet),
         coalesce((SELECT jsonb_agg(b.line ORDER BY b.published_at, b.place)
                   FROM because b WHERE b.day = l.day AND b.line IS NOT NULL), '[]'),
         EXISTS (SELECT FROM because b WHERE b.day = l.day AND b.line IS NULL)
  FROM last l JOIN plan pl ON pl.yard_id = app_yard() AND pl.id = l.plan_id
  ORDER BY l.published_at
$$;
