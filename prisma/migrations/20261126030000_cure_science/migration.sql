-- The cure science: data sheets with their evidence, what instruments and hands found, what a
-- part is made of, and how much is mixed. Everything new has a default that means what was meant
-- before.

-- AlterTable
ALTER TABLE "cure_table" ADD COLUMN "conversion" JSONB,
ADD COLUMN "spread" DOUBLE PRECISION,
ADD COLUMN "trust" TEXT NOT NULL DEFAULT 'sheet';

-- AlterTable
ALTER TABLE "material" ADD COLUMN "class_id" TEXT,
ADD COLUMN "kept_in_id" TEXT,
ADD COLUMN "kept_lag_hours" DOUBLE PRECISION NOT NULL DEFAULT 0,
ADD COLUMN "sheet" JSONB NOT NULL DEFAULT '{}',
ALTER COLUMN "minimum_c" DROP NOT NULL,
ALTER COLUMN "maximum_c" DROP NOT NULL,
ALTER COLUMN "below_minimum" DROP NOT NULL;

-- AlterTable
ALTER TABLE "outdoor" ADD COLUMN "humidity" DOUBLE PRECISION[] DEFAULT ARRAY[]::DOUBLE PRECISION[];

-- AlterTable
ALTER TABLE "procedure_use" ADD COLUMN "fabric_id" TEXT;

-- AlterTable
ALTER TABLE "space" ADD COLUMN "band_c" DOUBLE PRECISION,
ADD COLUMN "changes" JSONB NOT NULL DEFAULT '[]',
ADD COLUMN "enclosed" BOOLEAN NOT NULL DEFAULT false,
ADD COLUMN "humidity" JSONB,
ADD COLUMN "skin" JSONB;

-- AlterTable
ALTER TABLE "task" ADD COLUMN "bonding" TEXT NOT NULL DEFAULT 'structural',
ADD COLUMN "one_batch" BOOLEAN NOT NULL DEFAULT false,
ADD COLUMN "prepares" JSONB NOT NULL DEFAULT '[]',
ADD COLUMN "quantity" JSONB;

-- AlterTable
ALTER TABLE "yard" ADD COLUMN "consumables" JSONB NOT NULL DEFAULT '[]',
ADD COLUMN "cup_share" INTEGER NOT NULL DEFAULT 50,
ADD COLUMN "power_watts" INTEGER;

-- CreateTable
CREATE TABLE "part_layer" (
    "yard_id" TEXT NOT NULL,
    "part_id" TEXT NOT NULL,
    "position" SERIAL NOT NULL,
    "base" TEXT NOT NULL,
    "material_id" TEXT,
    "surface" TEXT NOT NULL,
    "waxed" BOOLEAN NOT NULL,
    "laid_at" TIMESTAMPTZ(3),
    "mm" DOUBLE PRECISION,

    CONSTRAINT "part_layer_pkey" PRIMARY KEY ("yard_id","part_id","position")
);

-- CreateTable
CREATE TABLE "material_version" (
    "yard_id" TEXT NOT NULL,
    "material_id" TEXT NOT NULL,
    "version" INTEGER NOT NULL,
    "body" JSONB NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_member_id" TEXT,

    CONSTRAINT "material_version_pkey" PRIMARY KEY ("yard_id","material_id","version")
);

-- CreateTable
CREATE TABLE "fabric" (
    "yard_id" TEXT NOT NULL,
    "id" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "grams_per_m2" DOUBLE PRECISION NOT NULL,
    "resin_ratio" DOUBLE PRECISION NOT NULL,
    "binder" TEXT NOT NULL,
    "source" TEXT NOT NULL,
    "position" SERIAL NOT NULL,
    "revision" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "fabric_pkey" PRIMARY KEY ("yard_id","id")
);

-- CreateTable
CREATE TABLE "reading" (
    "yard_id" TEXT NOT NULL,
    "id" TEXT NOT NULL,
    "space_id" TEXT NOT NULL,
    "of" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "minutes" INTEGER NOT NULL DEFAULT 0,
    "celsius" DOUBLE PRECISION NOT NULL,
    "humidity" DOUBLE PRECISION,
    "note" TEXT NOT NULL DEFAULT '',
    "position" SERIAL NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "reading_pkey" PRIMARY KEY ("yard_id","id")
);

-- CreateTable
CREATE TABLE "observation" (
    "yard_id" TEXT NOT NULL,
    "id" TEXT NOT NULL,
    "material_id" TEXT NOT NULL,
    "milestone" TEXT NOT NULL,
    "found" TEXT NOT NULL,
    "space_id" TEXT NOT NULL,
    "laid_at" TIMESTAMPTZ(3) NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "grams" DOUBLE PRECISION,
    "hardener_percent" DOUBLE PRECISION,
    "note" TEXT NOT NULL DEFAULT '',
    "position" SERIAL NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "observation_pkey" PRIMARY KEY ("yard_id","id")
);

-- CreateIndex
CREATE INDEX "part_layer_yard_id_material_id_idx" ON "part_layer"("yard_id", "material_id");

-- CreateIndex
CREATE INDEX "material_version_yard_id_by_member_id_idx" ON "material_version"("yard_id", "by_member_id");

-- CreateIndex
CREATE INDEX "reading_yard_id_space_id_at_idx" ON "reading"("yard_id", "space_id", "at");

-- CreateIndex
CREATE INDEX "observation_yard_id_material_id_idx" ON "observation"("yard_id", "material_id");

-- CreateIndex
CREATE INDEX "observation_yard_id_space_id_idx" ON "observation"("yard_id", "space_id");

-- CreateIndex
CREATE INDEX "material_yard_id_kept_in_id_idx" ON "material"("yard_id", "kept_in_id");

-- AddForeignKey
ALTER TABLE "part_layer" ADD CONSTRAINT "part_layer_yard_id_part_id_fkey" FOREIGN KEY ("yard_id", "part_id") REFERENCES "part"("yard_id", "id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "part_layer" ADD CONSTRAINT "part_layer_yard_id_material_id_fkey" FOREIGN KEY ("yard_id", "material_id") REFERENCES "material"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "material" ADD CONSTRAINT "material_yard_id_kept_in_id_fkey" FOREIGN KEY ("yard_id", "kept_in_id") REFERENCES "space"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "material_version" ADD CONSTRAINT "material_version_yard_id_fkey" FOREIGN KEY ("yard_id") REFERENCES "yard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "material_version" ADD CONSTRAINT "material_version_yard_id_by_member_id_fkey" FOREIGN KEY ("yard_id", "by_member_id") REFERENCES "member"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "fabric" ADD CONSTRAINT "fabric_yard_id_fkey" FOREIGN KEY ("yard_id") REFERENCES "yard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "procedure_use" ADD CONSTRAINT "procedure_use_yard_id_fabric_id_fkey" FOREIGN KEY ("yard_id", "fabric_id") REFERENCES "fabric"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "reading" ADD CONSTRAINT "reading_yard_id_fkey" FOREIGN KEY ("yard_id") REFERENCES "yard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "reading" ADD CONSTRAINT "reading_yard_id_space_id_fkey" FOREIGN KEY ("yard_id", "space_id") REFERENCES "space"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "observation" ADD CONSTRAINT "observation_yard_id_fkey" FOREIGN KEY ("yard_id") REFERENCES "yard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "observation" ADD CONSTRAINT "observation_yard_id_material_id_fkey" FOREIGN KEY ("yard_id", "material_id") REFERENCES "material"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "observation" ADD CONSTRAINT "observation_yard_id_space_id_fkey" FOREIGN KEY ("yard_id", "space_id") REFERENCES "space"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- ── Rows from before ───────────────────────────────────────────────────────────────────────
-- What a material says now is its first version. Its body is read by the shape, which fills in
-- what did not exist then.
INSERT INTO material_version (yard_id, material_id, version, body, at)
SELECT m.yard_id, m.id, 1,
       jsonb_build_object(
         'id', m.id, 'name', m.name, 'resinSystem', m.resin_system, 'minimumC', m.minimum_c,
         'maximumC', m.maximum_c, 'belowMinimum', m.below_minimum, 'cautions', to_jsonb(m.cautions),
         'milestones', coalesce((
           SELECT jsonb_agg(jsonb_build_object(
                    'milestone', t.milestone, 'source', t.source,
                    'rows', (SELECT jsonb_agg(jsonb_build_object('celsius', r.celsius, 'minutes', r.minutes)
                                              ORDER BY r.place)
                             FROM unnest(t.celsius, t.minutes) WITH ORDINALITY AS r (celsius, minutes, place)))
                  ORDER BY t.position)
           FROM cure_table t WHERE t.yard_id = m.yard_id AND t.material_id = m.id), '[]')),
       m.updated_at
FROM material m;

-- ── What the Prisma schema cannot say ──────────────────────────────────────────────────────
ALTER TABLE fabric      ADD CONSTRAINT fabric_id_shape      CHECK (id ~ '^[a-z0-9][a-z0-9._-]{0,119}$');
ALTER TABLE reading     ADD CONSTRAINT reading_id_shape     CHECK (id ~ '^[a-z0-9][a-z0-9._-]{0,119}$');
ALTER TABLE observation ADD CONSTRAINT observation_id_shape CHECK (id ~ '^[a-z0-9][a-z0-9._-]{0,119}$');
ALTER TABLE yard
  ADD CONSTRAINT yard_batches CHECK (cup_share BETWEEN 5 AND 95 AND power_watts >= 0 IS NOT FALSE),
  ADD CONSTRAINT yard_consumables CHECK (jsonb_typeof(consumables) = 'array');
ALTER TABLE space
  DROP CONSTRAINT space_climate,
  -- A heated one warms and cools with a lag as well; null: at once.
  ADD CONSTRAINT space_climate CHECK (
    CASE climate
      WHEN 'heated' THEN lag_hours >= 0 IS NOT FALSE AND warmer_by IS NULL
      WHEN 'outdoors' THEN lag_hours IS NOT NULL AND lag_hours >= 0 AND warmer_by IS NOT NULL
    END),
  ADD CONSTRAINT space_band CHECK (band_c BETWEEN 0 AND 20),
  ADD CONSTRAINT space_documents
    CHECK (jsonb_typeof(changes) = 'array' AND jsonb_typeof(humidity) = 'object' IS NOT FALSE
           AND jsonb_typeof(skin) = 'object' IS NOT FALSE);
ALTER TABLE outdoor
  ADD CONSTRAINT outdoor_humidity
    CHECK (cardinality(humidity) IN (0, cardinality(celsius))
           AND 1 <= ALL (humidity) AND 100 >= ALL (humidity));
ALTER TABLE material
  ADD CONSTRAINT material_sheet CHECK (jsonb_typeof(sheet) = 'object'),
  ADD CONSTRAINT material_kept CHECK (kept_lag_hours BETWEEN 0 AND 240);
ALTER TABLE material_version
  ADD CONSTRAINT material_version_number CHECK (version >= 1),
  ADD CONSTRAINT material_version_body CHECK (jsonb_typeof(body) = 'object');
ALTER TABLE cure_table
  DROP CONSTRAINT cure_table_rows,
  -- A table, or a rate model in its place.
  ADD CONSTRAINT cure_table_rows
    CHECK (cardinality(celsius) = cardinality(minutes) AND 0 < ALL (minutes)
           AND (cardinality(celsius) > 0) = (conversion IS NULL)),
  ADD CONSTRAINT cure_table_trust
    CHECK (trust IN ('sheet', 'measured', 'practice') AND spread >= 1 IS NOT FALSE);
ALTER TABLE fabric
  ADD CONSTRAINT fabric_amounts CHECK (grams_per_m2 > 0 AND resin_ratio > 0),
  ADD CONSTRAINT fabric_binder CHECK (binder IN ('none', 'powder', 'styrene-soluble'));
ALTER TABLE procedure_use
  DROP CONSTRAINT procedure_use_one,
  ADD CONSTRAINT procedure_use_one CHECK (
    num_nonnulls(skill_id, material_id, space_id, tool_id, stock_id, barrier_id, slot_list_id,
                 fabric_id) = 1);
ALTER TABLE part_layer
  ADD CONSTRAINT part_layer_base
    CHECK (base IN ('polyester', 'vinyl-ester', 'epoxy', 'wood', 'metal', 'foam', 'paint')),
  ADD CONSTRAINT part_layer_surface CHECK (surface IN ('inhibited', 'sealed', 'peel-ply', 'bare')),
  ADD CONSTRAINT part_layer_thickness CHECK (mm > 0);
ALTER TABLE task
  ADD CONSTRAINT task_batch
    CHECK (jsonb_typeof(quantity) = 'object' IS NOT FALSE AND jsonb_typeof(prepares) = 'array'),
  ADD CONSTRAINT task_bonding CHECK (bonding IN ('structural', 'cosmetic'));

-- The moment, or the stretch from it on. Minutes are added to an instant the same way in every
-- zone, so it is immutable although PostgreSQL cannot know that of an interval.
CREATE FUNCTION reading_span(at timestamptz, minutes int) RETURNS tstzrange
LANGUAGE sql IMMUTABLE PARALLEL SAFE AS $$
  SELECT CASE
    WHEN minutes = 0 THEN tstzrange(at, at, '[]')
    ELSE tstzrange(at, at + make_interval(mins => minutes))
  END
$$;
ALTER TABLE reading
  ADD CONSTRAINT reading_of CHECK (of IN ('air', 'surface')),
  ADD CONSTRAINT reading_values
    CHECK (minutes BETWEEN 0 AND 1440 AND celsius BETWEEN -60 AND 200
           AND humidity BETWEEN 1 AND 100 IS NOT FALSE),
  ADD CONSTRAINT reading_overlap EXCLUDE USING gist (
    yard_id WITH =, space_id WITH =, of WITH =, reading_span(at, minutes) WITH &&);
ALTER TABLE observation
  ADD CONSTRAINT observation_milestone CHECK (is_milestone(milestone)),
  ADD CONSTRAINT observation_found CHECK (found IN ('just-now', 'already', 'not-yet')),
  ADD CONSTRAINT observation_times CHECK (at >= laid_at),
  ADD CONSTRAINT observation_amounts
    CHECK (grams > 0 IS NOT FALSE AND hardener_percent > 0 IS NOT FALSE);

CREATE TRIGGER revision BEFORE UPDATE ON fabric
  FOR EACH ROW EXECUTE FUNCTION bump_revision();
CREATE TRIGGER immutable BEFORE UPDATE OR DELETE ON material_version
  FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER immutable_all BEFORE TRUNCATE ON material_version
  FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
