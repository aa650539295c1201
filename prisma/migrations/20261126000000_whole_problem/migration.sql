-- The whole problem: what a yard's plan must respect beyond the first week's core. Everything new
-- has a default that means what was meant before, so that a yard, its tasks and its plans stay
-- what they were.

-- CreateEnum
CREATE TYPE "link_owner" AS ENUM ('procedure', 'job', 'foreman');

-- AlterTable
ALTER TABLE "job" ADD COLUMN "destination_id" TEXT,
ADD COLUMN "words" JSONB NOT NULL DEFAULT '[]';

-- AlterTable
ALTER TABLE "member" ADD COLUMN "hourly_cost" INTEGER NOT NULL DEFAULT 0,
ADD COLUMN "overtime" JSONB NOT NULL DEFAULT '[]',
ADD COLUMN "overtime_hourly_extra" INTEGER NOT NULL DEFAULT 0;

-- AlterTable
ALTER TABLE "plan" ADD COLUMN "disturbance" DOUBLE PRECISION NOT NULL DEFAULT 0,
ADD COLUMN "money" DOUBLE PRECISION NOT NULL DEFAULT 0;

-- AlterTable
ALTER TABLE "plan_placement" ADD COLUMN "overtime" BOOLEAN NOT NULL DEFAULT false,
ADD COLUMN "slot" INTEGER;

-- AlterTable
ALTER TABLE "plan_run" ADD COLUMN "best_disturbance" DOUBLE PRECISION,
ADD COLUMN "best_money" DOUBLE PRECISION,
ADD COLUMN "bound_disturbance" DOUBLE PRECISION,
ADD COLUMN "bound_money" DOUBLE PRECISION;

-- AlterTable
ALTER TABLE "procedure_use" ADD COLUMN "barrier_id" TEXT,
ADD COLUMN "slot_list_id" TEXT,
ADD COLUMN "stock_id" TEXT;

-- AlterTable
ALTER TABLE "refit" ADD COLUMN "handovers" TIMESTAMPTZ(3)[] DEFAULT ARRAY[]::TIMESTAMPTZ(3)[];

-- AlterTable
ALTER TABLE "space" ADD COLUMN "hours" JSONB,
ADD COLUMN "taken" JSONB NOT NULL DEFAULT '[]';

-- AlterTable
ALTER TABLE "task" ADD COLUMN "barrier_closes" BOOLEAN,
ADD COLUMN "barrier_id" TEXT,
ADD COLUMN "clean_down_minutes" INTEGER NOT NULL DEFAULT 0,
ADD COLUMN "consumes" JSONB NOT NULL DEFAULT '[]',
ADD COLUMN "covered_by" TEXT[] DEFAULT ARRAY[]::TEXT[],
ADD COLUMN "fixed_start_at" TIMESTAMPTZ(3),
ADD COLUMN "holds" JSONB NOT NULL DEFAULT '[]',
ADD COLUMN "moves_to_id" TEXT,
ADD COLUMN "part_ids" TEXT[],
ADD COLUMN "price" INTEGER NOT NULL DEFAULT 0,
ADD COLUMN "sensitive_milestone" TEXT,
ADD COLUMN "sensitive_minutes" INTEGER,
ADD COLUMN "slot_list_id" TEXT,
ALTER COLUMN "skill_id" DROP NOT NULL;

-- AlterTable
ALTER TABLE "task_link" ADD COLUMN "set_by" "link_owner" NOT NULL DEFAULT 'procedure';

-- AlterTable
ALTER TABLE "tool" ADD COLUMN "away" JSONB NOT NULL DEFAULT '[]',
ADD COLUMN "hours" JSONB;

-- AlterTable
ALTER TABLE "yard" ADD COLUMN "currency" TEXT NOT NULL DEFAULT 'EUR',
ADD COLUMN "money_tolerance" INTEGER NOT NULL DEFAULT 5000;

-- CreateTable
CREATE TABLE "job_join" (
    "yard_id" TEXT NOT NULL,
    "job_id" TEXT NOT NULL,
    "part_id" TEXT NOT NULL,
    "position" SERIAL NOT NULL,

    CONSTRAINT "job_join_pkey" PRIMARY KEY ("yard_id","job_id","part_id")
);

-- CreateTable
CREATE TABLE "job_wait" (
    "yard_id" TEXT NOT NULL,
    "job_id" TEXT NOT NULL,
    "position" SERIAL NOT NULL,
    "delivery_id" TEXT NOT NULL,
    "step_id" TEXT,

    CONSTRAINT "job_wait_pkey" PRIMARY KEY ("yard_id","job_id","position")
);

-- CreateTable
CREATE TABLE "slot_list" (
    "yard_id" TEXT NOT NULL,
    "id" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "slots" JSONB NOT NULL DEFAULT '[]',
    "position" SERIAL NOT NULL,
    "revision" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "slot_list_pkey" PRIMARY KEY ("yard_id","id")
);

-- CreateTable
CREATE TABLE "delivery" (
    "yard_id" TEXT NOT NULL,
    "id" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "expected" TIMESTAMPTZ(3) NOT NULL,
    "position" SERIAL NOT NULL,
    "revision" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "delivery_pkey" PRIMARY KEY ("yard_id","id")
);

-- CreateTable
CREATE TABLE "stock" (
    "yard_id" TEXT NOT NULL,
    "id" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "unit" TEXT NOT NULL,
    "total" DOUBLE PRECISION NOT NULL,
    "position" SERIAL NOT NULL,
    "revision" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "stock_pkey" PRIMARY KEY ("yard_id","id")
);

-- CreateTable
CREATE TABLE "barrier" (
    "yard_id" TEXT NOT NULL,
    "id" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "closed" BOOLEAN NOT NULL,
    "position" SERIAL NOT NULL,
    "revision" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "barrier_pkey" PRIMARY KEY ("yard_id","id")
);

-- CreateTable
CREATE TABLE "barrier_block" (
    "yard_id" TEXT NOT NULL,
    "barrier_id" TEXT NOT NULL,
    "from_space_id" TEXT NOT NULL,
    "to_space_id" TEXT NOT NULL,
    "position" SERIAL NOT NULL,

    CONSTRAINT "barrier_block_pkey" PRIMARY KEY ("yard_id","barrier_id","from_space_id","to_space_id")
);

-- CreateIndex
CREATE INDEX "job_join_yard_id_part_id_idx" ON "job_join"("yard_id", "part_id");

-- CreateIndex
CREATE INDEX "job_wait_yard_id_delivery_id_idx" ON "job_wait"("yard_id", "delivery_id");

-- CreateIndex
CREATE INDEX "barrier_block_yard_id_from_space_id_idx" ON "barrier_block"("yard_id", "from_space_id");

-- CreateIndex
CREATE INDEX "barrier_block_yard_id_to_space_id_idx" ON "barrier_block"("yard_id", "to_space_id");

-- CreateIndex
CREATE INDEX "job_yard_id_destination_id_idx" ON "job"("yard_id", "destination_id");

-- CreateIndex
CREATE INDEX "task_yard_id_moves_to_id_idx" ON "task"("yard_id", "moves_to_id");

-- CreateIndex
CREATE INDEX "task_yard_id_barrier_id_idx" ON "task"("yard_id", "barrier_id");

-- CreateIndex
CREATE INDEX "task_yard_id_slot_list_id_idx" ON "task"("yard_id", "slot_list_id");

-- AddForeignKey
ALTER TABLE "job" ADD CONSTRAINT "job_yard_id_destination_id_fkey" FOREIGN KEY ("yard_id", "destination_id") REFERENCES "space"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "job_join" ADD CONSTRAINT "job_join_yard_id_job_id_fkey" FOREIGN KEY ("yard_id", "job_id") REFERENCES "job"("yard_id", "id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "job_join" ADD CONSTRAINT "job_join_yard_id_part_id_fkey" FOREIGN KEY ("yard_id", "part_id") REFERENCES "part"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "job_wait" ADD CONSTRAINT "job_wait_yard_id_job_id_fkey" FOREIGN KEY ("yard_id", "job_id") REFERENCES "job"("yard_id", "id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "job_wait" ADD CONSTRAINT "job_wait_yard_id_delivery_id_fkey" FOREIGN KEY ("yard_id", "delivery_id") REFERENCES "delivery"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "procedure_use" ADD CONSTRAINT "procedure_use_yard_id_stock_id_fkey" FOREIGN KEY ("yard_id", "stock_id") REFERENCES "stock"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "procedure_use" ADD CONSTRAINT "procedure_use_yard_id_barrier_id_fkey" FOREIGN KEY ("yard_id", "barrier_id") REFERENCES "barrier"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "procedure_use" ADD CONSTRAINT "procedure_use_yard_id_slot_list_id_fkey" FOREIGN KEY ("yard_id", "slot_list_id") REFERENCES "slot_list"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "slot_list" ADD CONSTRAINT "slot_list_yard_id_fkey" FOREIGN KEY ("yard_id") REFERENCES "yard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "delivery" ADD CONSTRAINT "delivery_yard_id_fkey" FOREIGN KEY ("yard_id") REFERENCES "yard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "stock" ADD CONSTRAINT "stock_yard_id_fkey" FOREIGN KEY ("yard_id") REFERENCES "yard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "barrier" ADD CONSTRAINT "barrier_yard_id_fkey" FOREIGN KEY ("yard_id") REFERENCES "yard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "barrier_block" ADD CONSTRAINT "barrier_block_yard_id_barrier_id_fkey" FOREIGN KEY ("yard_id", "barrier_id") REFERENCES "barrier"("yard_id", "id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "barrier_block" ADD CONSTRAINT "barrier_block_yard_id_from_space_id_fkey" FOREIGN KEY ("yard_id", "from_space_id") REFERENCES "space"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "barrier_block" ADD CONSTRAINT "barrier_block_yard_id_to_space_id_fkey" FOREIGN KEY ("yard_id", "to_space_id") REFERENCES "space"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "task" ADD CONSTRAINT "task_yard_id_moves_to_id_fkey" FOREIGN KEY ("yard_id", "moves_to_id") REFERENCES "space"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "task" ADD CONSTRAINT "task_yard_id_barrier_id_fkey" FOREIGN KEY ("yard_id", "barrier_id") REFERENCES "barrier"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "task" ADD CONSTRAINT "task_yard_id_slot_list_id_fkey" FOREIGN KEY ("yard_id", "slot_list_id") REFERENCES "slot_list"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- ── Rows from before ───────────────────────────────────────────────────────────────────────
-- Each task kept its own part to itself. A link between jobs was the jobs' order: its id is the
-- two tasks' with `..` between, or does not begin with the first task's job.
UPDATE task SET part_ids = ARRAY[part_id];
UPDATE task_link SET set_by = 'job'
FROM task
WHERE task.yard_id = task_link.yard_id AND task.id = task_link.from_task_id
  AND (strpos(task_link.id, '..') > 0 OR NOT starts_with(task_link.id, task.job_id || '.'));

-- ── What the Prisma schema cannot say ──────────────────────────────────────────────────────
ALTER TABLE stock     ADD CONSTRAINT stock_id_shape     CHECK (id ~ '^[a-z0-9][a-z0-9._-]{0,119}$');
ALTER TABLE barrier   ADD CONSTRAINT barrier_id_shape   CHECK (id ~ '^[a-z0-9][a-z0-9._-]{0,119}$');
ALTER TABLE slot_list ADD CONSTRAINT slot_list_id_shape CHECK (id ~ '^[a-z0-9][a-z0-9._-]{0,119}$');
ALTER TABLE delivery  ADD CONSTRAINT delivery_id_shape  CHECK (id ~ '^[a-z0-9][a-z0-9._-]{0,119}$');
ALTER TABLE yard
  ADD CONSTRAINT yard_money CHECK (currency ~ '^[A-Z]{3}$' AND money_tolerance >= 0);
ALTER TABLE member
  ADD CONSTRAINT member_money CHECK (hourly_cost >= 0 AND overtime_hourly_extra >= 0),
  ADD CONSTRAINT member_overtime CHECK (jsonb_typeof(overtime) = 'array');
ALTER TABLE space
  ADD CONSTRAINT space_supply
    CHECK (jsonb_typeof(taken) = 'array' AND jsonb_typeof(hours) = 'array' IS NOT FALSE);
ALTER TABLE tool
  ADD CONSTRAINT tool_supply
    CHECK (jsonb_typeof(away) = 'array' AND jsonb_typeof(hours) = 'array' IS NOT FALSE);
ALTER TABLE stock
  ADD CONSTRAINT stock_total CHECK (total >= 0);
ALTER TABLE slot_list
  ADD CONSTRAINT slot_list_kind CHECK (kind IN ('crane', 'tide', 'truck', 'surveyor', 'subcontractor')),
  ADD CONSTRAINT slot_list_slots CHECK (jsonb_typeof(slots) = 'array');
ALTER TABLE job
  ADD CONSTRAINT job_words CHECK (jsonb_typeof(words) = 'array');
ALTER TABLE procedure_use
  DROP CONSTRAINT procedure_use_one,
  ADD CONSTRAINT procedure_use_one CHECK (
    num_nonnulls(skill_id, material_id, space_id, tool_id, stock_id, barrier_id, slot_list_id) = 1);
ALTER TABLE task
  DROP CONSTRAINT task_work,
  DROP CONSTRAINT task_crew_size,
  -- Without a skill it is a hold point: nobody works, and it takes no time of anyone.
  ADD CONSTRAINT task_work CHECK (floor_minutes >= 0 AND CASE
    WHEN skill_id IS NULL THEN work_minutes = 0 AND crew_min = 0 AND crew_max = 0
    ELSE work_minutes >= 1 AND crew_min >= 1 AND crew_min <= crew_max
  END),
  ADD CONSTRAINT task_clean_down CHECK (clean_down_minutes BETWEEN 0 AND 1440),
  ADD CONSTRAINT task_barrier CHECK ((barrier_id IS NULL) = (barrier_closes IS NULL)),
  ADD CONSTRAINT task_price CHECK (price >= 0),
  ADD CONSTRAINT task_documents
    CHECK (jsonb_typeof(holds) = 'array' AND jsonb_typeof(consumes) = 'array'),
  ADD CONSTRAINT task_sensitive
    CHECK (num_nonnulls(sensitive_minutes, sensitive_milestone) <= 1
           AND sensitive_minutes >= 0 IS NOT FALSE
           AND is_milestone(sensitive_milestone) IS NOT FALSE);
ALTER TABLE plan
  DROP CONSTRAINT plan_values,
  ADD CONSTRAINT plan_values
    CHECK (lateness >= 0 AND finishes >= 0 AND money >= 0 AND disturbance >= 0);
ALTER TABLE plan_placement
  ADD CONSTRAINT plan_placement_slot CHECK (slot >= 0 IS NOT FALSE);

DO $$
DECLARE
  name text;
BEGIN
  FOREACH name IN ARRAY ARRAY['stock', 'barrier', 'slot_list', 'delivery'] LOOP
    EXECUTE format('CREATE TRIGGER revision BEFORE UPDATE ON %I
                    FOR EACH ROW EXECUTE FUNCTION bump_revision()', name);
  END LOOP;
END $$;
