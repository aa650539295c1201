-- CreateSchema
CREATE SCHEMA IF NOT EXISTS "public";

-- CreateEnum
CREATE TYPE "role" AS ENUM ('foreman', 'builder', 'owner');

-- CreateEnum
CREATE TYPE "climate_kind" AS ENUM ('heated', 'outdoors');

-- CreateEnum
CREATE TYPE "air" AS ENUM ('clean', 'dusty', 'wet');

-- CreateEnum
CREATE TYPE "breaks" AS ENUM ('relieved', 'observed');

-- CreateEnum
CREATE TYPE "task_state" AS ENUM ('waiting', 'working', 'done');

-- CreateEnum
CREATE TYPE "sweep" AS ENUM ('unknown', 'same');

-- CreateEnum
CREATE TYPE "run_status" AS ENUM ('queued', 'running', 'finished', 'stopped', 'failed', 'infeasible');

-- CreateEnum
CREATE TYPE "claim_status" AS ENUM ('open', 'working', 'finished', 'released');

-- CreateTable
CREATE TABLE "account" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "email" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "password_hash" TEXT,
    "revision" INTEGER NOT NULL DEFAULT 1,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updated_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "account_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "session" (
    "token_hash" BYTEA NOT NULL,
    "account_id" UUID NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "last_seen_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "expires_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "session_pkey" PRIMARY KEY ("token_hash")
);

-- CreateTable
CREATE TABLE "yard" (
    "id" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "time_zone" TEXT NOT NULL,
    "plan_from" TIMESTAMPTZ(3) NOT NULL,
    "horizon_days" INTEGER NOT NULL,
    "revision" INTEGER NOT NULL DEFAULT 1,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updated_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "yard_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "skill" (
    "yard_id" TEXT NOT NULL,
    "id" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "position" SERIAL NOT NULL,
    "revision" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "skill_pkey" PRIMARY KEY ("yard_id","id")
);

-- CreateTable
CREATE TABLE "member" (
    "yard_id" TEXT NOT NULL,
    "id" TEXT NOT NULL,
    "account_id" UUID,
    "name" TEXT NOT NULL,
    "email" TEXT,
    "roles" "role"[],
    "position" SERIAL NOT NULL,
    "revision" INTEGER NOT NULL DEFAULT 1,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updated_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "member_pkey" PRIMARY KEY ("yard_id","id")
);

-- CreateTable
CREATE TABLE "member_skill" (
    "yard_id" TEXT NOT NULL,
    "member_id" TEXT NOT NULL,
    "skill_id" TEXT NOT NULL,
    "level" INTEGER NOT NULL,
    "speed" INTEGER NOT NULL,
    "position" SERIAL NOT NULL,

    CONSTRAINT "member_skill_pkey" PRIMARY KEY ("yard_id","member_id","skill_id")
);

-- CreateTable
CREATE TABLE "weekly_shift" (
    "yard_id" TEXT NOT NULL,
    "member_id" TEXT NOT NULL,
    "weekday" INTEGER NOT NULL,
    "from_minute" INTEGER NOT NULL,
    "to_minute" INTEGER NOT NULL,
    "break_from" INTEGER[],
    "break_to" INTEGER[],
    "position" SERIAL NOT NULL,

    CONSTRAINT "weekly_shift_pkey" PRIMARY KEY ("yard_id","member_id","weekday","from_minute")
);

-- CreateTable
CREATE TABLE "shift_exception" (
    "yard_id" TEXT NOT NULL,
    "member_id" TEXT NOT NULL,
    "date" DATE NOT NULL,
    "reason" TEXT NOT NULL DEFAULT '',
    "position" SERIAL NOT NULL,

    CONSTRAINT "shift_exception_pkey" PRIMARY KEY ("yard_id","member_id","date")
);

-- CreateTable
CREATE TABLE "exception_shift" (
    "yard_id" TEXT NOT NULL,
    "member_id" TEXT NOT NULL,
    "date" DATE NOT NULL,
    "from_minute" INTEGER NOT NULL,
    "to_minute" INTEGER NOT NULL,
    "break_from" INTEGER[],
    "break_to" INTEGER[],
    "position" SERIAL NOT NULL,

    CONSTRAINT "exception_shift_pkey" PRIMARY KEY ("yard_id","member_id","date","from_minute")
);

-- CreateTable
CREATE TABLE "space" (
    "yard_id" TEXT NOT NULL,
    "id" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "room" INTEGER NOT NULL,
    "settling_minutes" INTEGER NOT NULL,
    "climate" "climate_kind" NOT NULL,
    "lag_hours" DOUBLE PRECISION,
    "warmer_by" DOUBLE PRECISION,
    "position" SERIAL NOT NULL,
    "revision" INTEGER NOT NULL DEFAULT 1,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updated_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "space_pkey" PRIMARY KEY ("yard_id","id")
);

-- CreateTable
CREATE TABLE "set_point" (
    "yard_id" TEXT NOT NULL,
    "space_id" TEXT NOT NULL,
    "position" SERIAL NOT NULL,
    "weekdays" INTEGER[],
    "from_minute" INTEGER NOT NULL,
    "celsius" DOUBLE PRECISION NOT NULL,

    CONSTRAINT "set_point_pkey" PRIMARY KEY ("yard_id","space_id","position")
);

-- CreateTable
CREATE TABLE "dust_reach" (
    "yard_id" TEXT NOT NULL,
    "from_space_id" TEXT NOT NULL,
    "to_space_id" TEXT NOT NULL,
    "position" SERIAL NOT NULL,

    CONSTRAINT "dust_reach_pkey" PRIMARY KEY ("yard_id","from_space_id","to_space_id")
);

-- CreateTable
CREATE TABLE "tool" (
    "yard_id" TEXT NOT NULL,
    "id" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "count" INTEGER NOT NULL,
    "position" SERIAL NOT NULL,
    "revision" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "tool_pkey" PRIMARY KEY ("yard_id","id")
);

-- CreateTable
CREATE TABLE "outdoor" (
    "yard_id" TEXT NOT NULL,
    "from" TIMESTAMPTZ(3) NOT NULL,
    "celsius" DOUBLE PRECISION[],
    "source" TEXT NOT NULL,
    "revision" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "outdoor_pkey" PRIMARY KEY ("yard_id")
);

-- CreateTable
CREATE TABLE "material" (
    "yard_id" TEXT NOT NULL,
    "id" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "resin_system" TEXT NOT NULL,
    "minimum_c" DOUBLE PRECISION NOT NULL,
    "maximum_c" DOUBLE PRECISION NOT NULL,
    "below_minimum" TEXT NOT NULL,
    "cautions" TEXT[],
    "position" SERIAL NOT NULL,
    "revision" INTEGER NOT NULL DEFAULT 1,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updated_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "material_pkey" PRIMARY KEY ("yard_id","id")
);

-- CreateTable
CREATE TABLE "cure_table" (
    "yard_id" TEXT NOT NULL,
    "material_id" TEXT NOT NULL,
    "milestone" TEXT NOT NULL,
    "celsius" DOUBLE PRECISION[],
    "minutes" DOUBLE PRECISION[],
    "source" TEXT NOT NULL,
    "position" SERIAL NOT NULL,

    CONSTRAINT "cure_table_pkey" PRIMARY KEY ("yard_id","material_id","milestone")
);

-- CreateTable
CREATE TABLE "procedure" (
    "yard_id" TEXT NOT NULL,
    "id" TEXT NOT NULL,
    "version" INTEGER NOT NULL,
    "name" TEXT NOT NULL,
    "body" JSONB NOT NULL,
    "position" SERIAL NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "procedure_pkey" PRIMARY KEY ("yard_id","id","version")
);

-- CreateTable
CREATE TABLE "procedure_use" (
    "yard_id" TEXT NOT NULL,
    "procedure_id" TEXT NOT NULL,
    "version" INTEGER NOT NULL,
    "position" SERIAL NOT NULL,
    "skill_id" TEXT,
    "material_id" TEXT,
    "space_id" TEXT,
    "tool_id" TEXT,

    CONSTRAINT "procedure_use_pkey" PRIMARY KEY ("yard_id","procedure_id","version","position")
);

-- CreateTable
CREATE TABLE "boat" (
    "yard_id" TEXT NOT NULL,
    "id" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "owner_id" TEXT,
    "position" SERIAL NOT NULL,
    "revision" INTEGER NOT NULL DEFAULT 1,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updated_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "boat_pkey" PRIMARY KEY ("yard_id","id")
);

-- CreateTable
CREATE TABLE "refit" (
    "yard_id" TEXT NOT NULL,
    "id" TEXT NOT NULL,
    "boat_id" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "release" TIMESTAMPTZ(3) NOT NULL,
    "promised" TIMESTAMPTZ(3),
    "weight" INTEGER NOT NULL,
    "position" SERIAL NOT NULL,
    "revision" INTEGER NOT NULL DEFAULT 1,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updated_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "refit_pkey" PRIMARY KEY ("yard_id","id")
);

-- CreateTable
CREATE TABLE "part" (
    "yard_id" TEXT NOT NULL,
    "id" TEXT NOT NULL,
    "refit_id" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "space_id" TEXT NOT NULL,
    "area_m2" DOUBLE PRECISION NOT NULL,
    "edge_m" DOUBLE PRECISION NOT NULL,
    "joint_m" DOUBLE PRECISION NOT NULL,
    "position" SERIAL NOT NULL,
    "revision" INTEGER NOT NULL DEFAULT 1,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updated_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "part_pkey" PRIMARY KEY ("yard_id","id")
);

-- CreateTable
CREATE TABLE "job" (
    "yard_id" TEXT NOT NULL,
    "id" TEXT NOT NULL,
    "part_id" TEXT NOT NULL,
    "procedure_id" TEXT NOT NULL,
    "procedure_version" INTEGER NOT NULL,
    "position" SERIAL NOT NULL,
    "revision" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "job_pkey" PRIMARY KEY ("yard_id","id")
);

-- CreateTable
CREATE TABLE "job_after" (
    "yard_id" TEXT NOT NULL,
    "job_id" TEXT NOT NULL,
    "after_id" TEXT NOT NULL,
    "position" SERIAL NOT NULL,

    CONSTRAINT "job_after_pkey" PRIMARY KEY ("yard_id","job_id","after_id")
);

-- CreateTable
CREATE TABLE "task" (
    "yard_id" TEXT NOT NULL,
    "id" TEXT NOT NULL,
    "refit_id" TEXT NOT NULL,
    "part_id" TEXT NOT NULL,
    "job_id" TEXT NOT NULL,
    "step_id" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "work_minutes" DOUBLE PRECISION NOT NULL,
    "floor_minutes" INTEGER NOT NULL,
    "skill_id" TEXT NOT NULL,
    "min_level" INTEGER NOT NULL,
    "crew_min" INTEGER NOT NULL,
    "crew_max" INTEGER NOT NULL,
    "air" "air" NOT NULL,
    "material_id" TEXT,
    "space_id" TEXT NOT NULL,
    "splittable" BOOLEAN NOT NULL,
    "breaks" "breaks" NOT NULL,
    "state" "task_state" NOT NULL DEFAULT 'waiting',
    "started_at" TIMESTAMPTZ(3),
    "finished_at" TIMESTAMPTZ(3),
    "position" SERIAL NOT NULL,
    "revision" INTEGER NOT NULL DEFAULT 1,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updated_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "task_pkey" PRIMARY KEY ("yard_id","id")
);

-- CreateTable
CREATE TABLE "task_crew" (
    "yard_id" TEXT NOT NULL,
    "task_id" TEXT NOT NULL,
    "member_id" TEXT NOT NULL,
    "position" SERIAL NOT NULL,

    CONSTRAINT "task_crew_pkey" PRIMARY KEY ("yard_id","task_id","member_id")
);

-- CreateTable
CREATE TABLE "task_tool" (
    "yard_id" TEXT NOT NULL,
    "task_id" TEXT NOT NULL,
    "tool_id" TEXT NOT NULL,
    "count" INTEGER NOT NULL,
    "position" SERIAL NOT NULL,

    CONSTRAINT "task_tool_pkey" PRIMARY KEY ("yard_id","task_id","tool_id")
);

-- CreateTable
CREATE TABLE "task_link" (
    "yard_id" TEXT NOT NULL,
    "id" TEXT NOT NULL,
    "from_task_id" TEXT NOT NULL,
    "to_task_id" TEXT NOT NULL,
    "opens_minutes" INTEGER,
    "opens_milestone" TEXT,
    "closes_minutes" INTEGER,
    "closes_milestone" TEXT,
    "sweep" "sweep" NOT NULL DEFAULT 'unknown',
    "position" SERIAL NOT NULL,

    CONSTRAINT "task_link_pkey" PRIMARY KEY ("yard_id","id")
);

-- CreateTable
CREATE TABLE "task_choice" (
    "yard_id" TEXT NOT NULL,
    "id" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "part_id" TEXT NOT NULL,
    "position" SERIAL NOT NULL,

    CONSTRAINT "task_choice_pkey" PRIMARY KEY ("yard_id","id")
);

-- CreateTable
CREATE TABLE "task_branch" (
    "yard_id" TEXT NOT NULL,
    "choice_id" TEXT NOT NULL,
    "id" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "position" SERIAL NOT NULL,

    CONSTRAINT "task_branch_pkey" PRIMARY KEY ("yard_id","choice_id","id")
);

-- CreateTable
CREATE TABLE "branch_task" (
    "yard_id" TEXT NOT NULL,
    "choice_id" TEXT NOT NULL,
    "branch_id" TEXT NOT NULL,
    "task_id" TEXT NOT NULL,
    "position" SERIAL NOT NULL,

    CONSTRAINT "branch_task_pkey" PRIMARY KEY ("yard_id","choice_id","branch_id","task_id")
);

-- CreateTable
CREATE TABLE "branch_link" (
    "yard_id" TEXT NOT NULL,
    "choice_id" TEXT NOT NULL,
    "branch_id" TEXT NOT NULL,
    "link_id" TEXT NOT NULL,
    "position" SERIAL NOT NULL,

    CONSTRAINT "branch_link_pkey" PRIMARY KEY ("yard_id","choice_id","branch_id","link_id")
);

-- CreateTable
CREATE TABLE "plan_run" (
    "yard_id" TEXT NOT NULL,
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "status" "run_status" NOT NULL DEFAULT 'queued',
    "requested_by_id" TEXT,
    "seed" INTEGER NOT NULL DEFAULT 0,
    "seconds" DOUBLE PRECISION,
    "iterations" INTEGER,
    "attempts" INTEGER NOT NULL DEFAULT 0,
    "stop_requested_at" TIMESTAMPTZ(3),
    "iterations_done" INTEGER NOT NULL DEFAULT 0,
    "best_lateness" DOUBLE PRECISION,
    "best_finishes" DOUBLE PRECISION,
    "bound_lateness" DOUBLE PRECISION,
    "bound_finishes" DOUBLE PRECISION,
    "gap" DOUBLE PRECISION,
    "best_finish_at" TIMESTAMPTZ(3),
    "error" TEXT,
    "infeasibility" JSONB,
    "revision" INTEGER NOT NULL DEFAULT 1,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updated_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "started_at" TIMESTAMPTZ(3),
    "finished_at" TIMESTAMPTZ(3),

    CONSTRAINT "plan_run_pkey" PRIMARY KEY ("yard_id","id")
);

-- CreateTable
CREATE TABLE "compiled_problem" (
    "yard_id" TEXT NOT NULL,
    "hash" TEXT NOT NULL,
    "gzip" BYTEA NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "compiled_problem_pkey" PRIMARY KEY ("yard_id","hash")
);

-- CreateTable
CREATE TABLE "plan" (
    "yard_id" TEXT NOT NULL,
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "run_id" UUID NOT NULL,
    "problem_hash" TEXT NOT NULL,
    "engine_version" TEXT NOT NULL,
    "status" TEXT NOT NULL,
    "origin" TIMESTAMPTZ(3) NOT NULL,
    "lateness" DOUBLE PRECISION NOT NULL,
    "finishes" DOUBLE PRECISION NOT NULL,
    "branches" INTEGER[],
    "bounds" JSONB NOT NULL,
    "chains" JSONB NOT NULL,
    "floats" JSONB NOT NULL,
    "iterations" INTEGER NOT NULL,
    "found_at" INTEGER NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "plan_pkey" PRIMARY KEY ("yard_id","id")
);

-- CreateTable
CREATE TABLE "plan_refit" (
    "yard_id" TEXT NOT NULL,
    "plan_id" UUID NOT NULL,
    "refit" INTEGER NOT NULL,
    "refit_id" TEXT NOT NULL,
    "promised" TIMESTAMPTZ(3),
    "finish_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "plan_refit_pkey" PRIMARY KEY ("yard_id","plan_id","refit")
);

-- CreateTable
CREATE TABLE "plan_placement" (
    "yard_id" TEXT NOT NULL,
    "plan_id" UUID NOT NULL,
    "activity" INTEGER NOT NULL,
    "task_id" TEXT NOT NULL,
    "mode" INTEGER NOT NULL,
    "start_at" TIMESTAMPTZ(3) NOT NULL,
    "finish_at" TIMESTAMPTZ(3) NOT NULL,
    "segment_starts" TIMESTAMPTZ(3)[],
    "segment_ends" TIMESTAMPTZ(3)[],
    "float_minutes" INTEGER,

    CONSTRAINT "plan_placement_pkey" PRIMARY KEY ("yard_id","plan_id","activity")
);

-- CreateTable
CREATE TABLE "plan_placement_crew" (
    "yard_id" TEXT NOT NULL,
    "plan_id" UUID NOT NULL,
    "activity" INTEGER NOT NULL,
    "member_id" TEXT NOT NULL,
    "demand" INTEGER NOT NULL,
    "position" SERIAL NOT NULL,

    CONSTRAINT "plan_placement_crew_pkey" PRIMARY KEY ("yard_id","plan_id","activity","member_id")
);

-- CreateTable
CREATE TABLE "published_plan" (
    "yard_id" TEXT NOT NULL,
    "plan_id" UUID NOT NULL,
    "published_by_id" TEXT,
    "published_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "revision" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "published_plan_pkey" PRIMARY KEY ("yard_id")
);

-- CreateTable
CREATE TABLE "claim" (
    "yard_id" TEXT NOT NULL,
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "task_id" TEXT NOT NULL,
    "member_id" TEXT NOT NULL,
    "status" "claim_status" NOT NULL DEFAULT 'open',
    "claimed_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "started_at" TIMESTAMPTZ(3),
    "finished_at" TIMESTAMPTZ(3),
    "released_at" TIMESTAMPTZ(3),
    "revision" INTEGER NOT NULL DEFAULT 1,
    "updated_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "claim_pkey" PRIMARY KEY ("yard_id","id")
);

-- CreateTable
CREATE TABLE "claim_member" (
    "yard_id" TEXT NOT NULL,
    "claim_id" UUID NOT NULL,
    "member_id" TEXT NOT NULL,
    "position" SERIAL NOT NULL,

    CONSTRAINT "claim_member_pkey" PRIMARY KEY ("yard_id","claim_id","member_id")
);

-- CreateTable
CREATE TABLE "event" (
    "yard_id" TEXT NOT NULL,
    "id" BIGSERIAL NOT NULL,
    "kind" TEXT NOT NULL,
    "subject" TEXT NOT NULL,
    "subject_id" TEXT NOT NULL,
    "payload" JSONB NOT NULL DEFAULT '{}',
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_member_id" TEXT,

    CONSTRAINT "event_pkey" PRIMARY KEY ("yard_id","id")
);

-- CreateTable
CREATE TABLE "idempotency_key" (
    "yard_id" TEXT NOT NULL,
    "member_id" TEXT NOT NULL,
    "key" TEXT NOT NULL,
    "fingerprint" TEXT NOT NULL,
    "status" INTEGER,
    "body" JSONB,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "completed_at" TIMESTAMPTZ(3),

    CONSTRAINT "idempotency_key_pkey" PRIMARY KEY ("yard_id","member_id","key")
);

-- CreateIndex
CREATE UNIQUE INDEX "account_email_key" ON "account"("email");

-- CreateIndex
CREATE INDEX "session_account_id_idx" ON "session"("account_id");

-- CreateIndex
CREATE INDEX "session_expires_at_idx" ON "session"("expires_at");

-- CreateIndex
CREATE INDEX "member_account_id_idx" ON "member"("account_id");

-- CreateIndex
CREATE UNIQUE INDEX "member_yard_id_account_id_key" ON "member"("yard_id", "account_id");

-- CreateIndex
CREATE INDEX "member_skill_yard_id_skill_id_idx" ON "member_skill"("yard_id", "skill_id");

-- CreateIndex
CREATE INDEX "dust_reach_yard_id_to_space_id_idx" ON "dust_reach"("yard_id", "to_space_id");

-- CreateIndex
CREATE INDEX "boat_yard_id_owner_id_idx" ON "boat"("yard_id", "owner_id");

-- CreateIndex
CREATE INDEX "refit_yard_id_boat_id_idx" ON "refit"("yard_id", "boat_id");

-- CreateIndex
CREATE INDEX "part_yard_id_refit_id_idx" ON "part"("yard_id", "refit_id");

-- CreateIndex
CREATE INDEX "part_yard_id_space_id_idx" ON "part"("yard_id", "space_id");

-- CreateIndex
CREATE INDEX "job_yard_id_part_id_idx" ON "job"("yard_id", "part_id");

-- CreateIndex
CREATE INDEX "job_yard_id_procedure_id_procedure_version_idx" ON "job"("yard_id", "procedure_id", "procedure_version");

-- CreateIndex
CREATE INDEX "job_after_yard_id_after_id_idx" ON "job_after"("yard_id", "after_id");

-- CreateIndex
CREATE INDEX "task_yard_id_refit_id_idx" ON "task"("yard_id", "refit_id");

-- CreateIndex
CREATE INDEX "task_yard_id_part_id_idx" ON "task"("yard_id", "part_id");

-- CreateIndex
CREATE INDEX "task_yard_id_job_id_idx" ON "task"("yard_id", "job_id");

-- CreateIndex
CREATE INDEX "task_yard_id_space_id_idx" ON "task"("yard_id", "space_id");

-- CreateIndex
CREATE INDEX "task_yard_id_state_idx" ON "task"("yard_id", "state");

-- CreateIndex
CREATE INDEX "task_crew_yard_id_member_id_idx" ON "task_crew"("yard_id", "member_id");

-- CreateIndex
CREATE INDEX "task_tool_yard_id_tool_id_idx" ON "task_tool"("yard_id", "tool_id");

-- CreateIndex
CREATE INDEX "task_link_yard_id_from_task_id_idx" ON "task_link"("yard_id", "from_task_id");

-- CreateIndex
CREATE INDEX "task_link_yard_id_to_task_id_idx" ON "task_link"("yard_id", "to_task_id");

-- CreateIndex
CREATE INDEX "task_choice_yard_id_part_id_idx" ON "task_choice"("yard_id", "part_id");

-- CreateIndex
CREATE INDEX "branch_task_yard_id_task_id_idx" ON "branch_task"("yard_id", "task_id");

-- CreateIndex
CREATE INDEX "branch_link_yard_id_link_id_idx" ON "branch_link"("yard_id", "link_id");

-- CreateIndex
CREATE INDEX "plan_run_yard_id_created_at_idx" ON "plan_run"("yard_id", "created_at");

-- CreateIndex
CREATE INDEX "plan_yard_id_created_at_idx" ON "plan"("yard_id", "created_at");

-- CreateIndex
CREATE UNIQUE INDEX "plan_yard_id_run_id_key" ON "plan"("yard_id", "run_id");

-- CreateIndex
CREATE INDEX "plan_placement_yard_id_task_id_idx" ON "plan_placement"("yard_id", "task_id");

-- CreateIndex
CREATE INDEX "plan_placement_yard_id_plan_id_start_at_idx" ON "plan_placement"("yard_id", "plan_id", "start_at");

-- CreateIndex
CREATE INDEX "plan_placement_crew_yard_id_plan_id_member_id_idx" ON "plan_placement_crew"("yard_id", "plan_id", "member_id");

-- CreateIndex
CREATE UNIQUE INDEX "published_plan_yard_id_plan_id_key" ON "published_plan"("yard_id", "plan_id");

-- CreateIndex
CREATE INDEX "claim_yard_id_task_id_idx" ON "claim"("yard_id", "task_id");

-- CreateIndex
CREATE INDEX "claim_yard_id_member_id_idx" ON "claim"("yard_id", "member_id");

-- CreateIndex
CREATE INDEX "claim_member_yard_id_member_id_idx" ON "claim_member"("yard_id", "member_id");

-- CreateIndex
CREATE INDEX "event_yard_id_subject_subject_id_idx" ON "event"("yard_id", "subject", "subject_id");

-- CreateIndex
CREATE INDEX "idempotency_key_created_at_idx" ON "idempotency_key"("created_at");

-- AddForeignKey
ALTER TABLE "session" ADD CONSTRAINT "session_account_id_fkey" FOREIGN KEY ("account_id") REFERENCES "account"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "skill" ADD CONSTRAINT "skill_yard_id_fkey" FOREIGN KEY ("yard_id") REFERENCES "yard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "member" ADD CONSTRAINT "member_yard_id_fkey" FOREIGN KEY ("yard_id") REFERENCES "yard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "member" ADD CONSTRAINT "member_account_id_fkey" FOREIGN KEY ("account_id") REFERENCES "account"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "member_skill" ADD CONSTRAINT "member_skill_yard_id_member_id_fkey" FOREIGN KEY ("yard_id", "member_id") REFERENCES "member"("yard_id", "id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "member_skill" ADD CONSTRAINT "member_skill_yard_id_skill_id_fkey" FOREIGN KEY ("yard_id", "skill_id") REFERENCES "skill"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "weekly_shift" ADD CONSTRAINT "weekly_shift_yard_id_member_id_fkey" FOREIGN KEY ("yard_id", "member_id") REFERENCES "member"("yard_id", "id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "shift_exception" ADD CONSTRAINT "shift_exception_yard_id_member_id_fkey" FOREIGN KEY ("yard_id", "member_id") REFERENCES "member"("yard_id", "id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "exception_shift" ADD CONSTRAINT "exception_shift_yard_id_member_id_date_fkey" FOREIGN KEY ("yard_id", "member_id", "date") REFERENCES "shift_exception"("yard_id", "member_id", "date") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "space" ADD CONSTRAINT "space_yard_id_fkey" FOREIGN KEY ("yard_id") REFERENCES "yard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "set_point" ADD CONSTRAINT "set_point_yard_id_space_id_fkey" FOREIGN KEY ("yard_id", "space_id") REFERENCES "space"("yard_id", "id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "dust_reach" ADD CONSTRAINT "dust_reach_yard_id_from_space_id_fkey" FOREIGN KEY ("yard_id", "from_space_id") REFERENCES "space"("yard_id", "id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "dust_reach" ADD CONSTRAINT "dust_reach_yard_id_to_space_id_fkey" FOREIGN KEY ("yard_id", "to_space_id") REFERENCES "space"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "tool" ADD CONSTRAINT "tool_yard_id_fkey" FOREIGN KEY ("yard_id") REFERENCES "yard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "outdoor" ADD CONSTRAINT "outdoor_yard_id_fkey" FOREIGN KEY ("yard_id") REFERENCES "yard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "material" ADD CONSTRAINT "material_yard_id_fkey" FOREIGN KEY ("yard_id") REFERENCES "yard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "cure_table" ADD CONSTRAINT "cure_table_yard_id_material_id_fkey" FOREIGN KEY ("yard_id", "material_id") REFERENCES "material"("yard_id", "id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "procedure" ADD CONSTRAINT "procedure_yard_id_fkey" FOREIGN KEY ("yard_id") REFERENCES "yard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "procedure_use" ADD CONSTRAINT "procedure_use_yard_id_procedure_id_version_fkey" FOREIGN KEY ("yard_id", "procedure_id", "version") REFERENCES "procedure"("yard_id", "id", "version") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "procedure_use" ADD CONSTRAINT "procedure_use_yard_id_skill_id_fkey" FOREIGN KEY ("yard_id", "skill_id") REFERENCES "skill"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "procedure_use" ADD CONSTRAINT "procedure_use_yard_id_material_id_fkey" FOREIGN KEY ("yard_id", "material_id") REFERENCES "material"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "procedure_use" ADD CONSTRAINT "procedure_use_yard_id_space_id_fkey" FOREIGN KEY ("yard_id", "space_id") REFERENCES "space"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "procedure_use" ADD CONSTRAINT "procedure_use_yard_id_tool_id_fkey" FOREIGN KEY ("yard_id", "tool_id") REFERENCES "tool"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "boat" ADD CONSTRAINT "boat_yard_id_fkey" FOREIGN KEY ("yard_id") REFERENCES "yard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "boat" ADD CONSTRAINT "boat_yard_id_owner_id_fkey" FOREIGN KEY ("yard_id", "owner_id") REFERENCES "member"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "refit" ADD CONSTRAINT "refit_yard_id_boat_id_fkey" FOREIGN KEY ("yard_id", "boat_id") REFERENCES "boat"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "part" ADD CONSTRAINT "part_yard_id_refit_id_fkey" FOREIGN KEY ("yard_id", "refit_id") REFERENCES "refit"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "part" ADD CONSTRAINT "part_yard_id_space_id_fkey" FOREIGN KEY ("yard_id", "space_id") REFERENCES "space"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "job" ADD CONSTRAINT "job_yard_id_part_id_fkey" FOREIGN KEY ("yard_id", "part_id") REFERENCES "part"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "job" ADD CONSTRAINT "job_yard_id_procedure_id_procedure_version_fkey" FOREIGN KEY ("yard_id", "procedure_id", "procedure_version") REFERENCES "procedure"("yard_id", "id", "version") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "job_after" ADD CONSTRAINT "job_after_yard_id_job_id_fkey" FOREIGN KEY ("yard_id", "job_id") REFERENCES "job"("yard_id", "id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "job_after" ADD CONSTRAINT "job_after_yard_id_after_id_fkey" FOREIGN KEY ("yard_id", "after_id") REFERENCES "job"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "task" ADD CONSTRAINT "task_yard_id_fkey" FOREIGN KEY ("yard_id") REFERENCES "yard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "task" ADD CONSTRAINT "task_yard_id_refit_id_fkey" FOREIGN KEY ("yard_id", "refit_id") REFERENCES "refit"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "task" ADD CONSTRAINT "task_yard_id_part_id_fkey" FOREIGN KEY ("yard_id", "part_id") REFERENCES "part"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "task" ADD CONSTRAINT "task_yard_id_job_id_fkey" FOREIGN KEY ("yard_id", "job_id") REFERENCES "job"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "task" ADD CONSTRAINT "task_yard_id_skill_id_fkey" FOREIGN KEY ("yard_id", "skill_id") REFERENCES "skill"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "task" ADD CONSTRAINT "task_yard_id_material_id_fkey" FOREIGN KEY ("yard_id", "material_id") REFERENCES "material"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "task" ADD CONSTRAINT "task_yard_id_space_id_fkey" FOREIGN KEY ("yard_id", "space_id") REFERENCES "space"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "task_crew" ADD CONSTRAINT "task_crew_yard_id_task_id_fkey" FOREIGN KEY ("yard_id", "task_id") REFERENCES "task"("yard_id", "id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "task_crew" ADD CONSTRAINT "task_crew_yard_id_member_id_fkey" FOREIGN KEY ("yard_id", "member_id") REFERENCES "member"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "task_tool" ADD CONSTRAINT "task_tool_yard_id_task_id_fkey" FOREIGN KEY ("yard_id", "task_id") REFERENCES "task"("yard_id", "id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "task_tool" ADD CONSTRAINT "task_tool_yard_id_tool_id_fkey" FOREIGN KEY ("yard_id", "tool_id") REFERENCES "tool"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "task_link" ADD CONSTRAINT "task_link_yard_id_from_task_id_fkey" FOREIGN KEY ("yard_id", "from_task_id") REFERENCES "task"("yard_id", "id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "task_link" ADD CONSTRAINT "task_link_yard_id_to_task_id_fkey" FOREIGN KEY ("yard_id", "to_task_id") REFERENCES "task"("yard_id", "id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "task_choice" ADD CONSTRAINT "task_choice_yard_id_part_id_fkey" FOREIGN KEY ("yard_id", "part_id") REFERENCES "part"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "task_branch" ADD CONSTRAINT "task_branch_yard_id_choice_id_fkey" FOREIGN KEY ("yard_id", "choice_id") REFERENCES "task_choice"("yard_id", "id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "branch_task" ADD CONSTRAINT "branch_task_yard_id_choice_id_branch_id_fkey" FOREIGN KEY ("yard_id", "choice_id", "branch_id") REFERENCES "task_branch"("yard_id", "choice_id", "id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "branch_task" ADD CONSTRAINT "branch_task_yard_id_task_id_fkey" FOREIGN KEY ("yard_id", "task_id") REFERENCES "task"("yard_id", "id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "branch_link" ADD CONSTRAINT "branch_link_yard_id_choice_id_branch_id_fkey" FOREIGN KEY ("yard_id", "choice_id", "branch_id") REFERENCES "task_branch"("yard_id", "choice_id", "id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "branch_link" ADD CONSTRAINT "branch_link_yard_id_link_id_fkey" FOREIGN KEY ("yard_id", "link_id") REFERENCES "task_link"("yard_id", "id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "plan_run" ADD CONSTRAINT "plan_run_yard_id_fkey" FOREIGN KEY ("yard_id") REFERENCES "yard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "plan_run" ADD CONSTRAINT "plan_run_yard_id_requested_by_id_fkey" FOREIGN KEY ("yard_id", "requested_by_id") REFERENCES "member"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "compiled_problem" ADD CONSTRAINT "compiled_problem_yard_id_fkey" FOREIGN KEY ("yard_id") REFERENCES "yard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "plan" ADD CONSTRAINT "plan_yard_id_fkey" FOREIGN KEY ("yard_id") REFERENCES "yard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "plan" ADD CONSTRAINT "plan_yard_id_run_id_fkey" FOREIGN KEY ("yard_id", "run_id") REFERENCES "plan_run"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "plan" ADD CONSTRAINT "plan_yard_id_problem_hash_fkey" FOREIGN KEY ("yard_id", "problem_hash") REFERENCES "compiled_problem"("yard_id", "hash") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "plan_refit" ADD CONSTRAINT "plan_refit_yard_id_plan_id_fkey" FOREIGN KEY ("yard_id", "plan_id") REFERENCES "plan"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "plan_placement" ADD CONSTRAINT "plan_placement_yard_id_plan_id_fkey" FOREIGN KEY ("yard_id", "plan_id") REFERENCES "plan"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "plan_placement_crew" ADD CONSTRAINT "plan_placement_crew_yard_id_plan_id_activity_fkey" FOREIGN KEY ("yard_id", "plan_id", "activity") REFERENCES "plan_placement"("yard_id", "plan_id", "activity") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "published_plan" ADD CONSTRAINT "published_plan_yard_id_fkey" FOREIGN KEY ("yard_id") REFERENCES "yard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "published_plan" ADD CONSTRAINT "published_plan_yard_id_plan_id_fkey" FOREIGN KEY ("yard_id", "plan_id") REFERENCES "plan"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "published_plan" ADD CONSTRAINT "published_plan_yard_id_published_by_id_fkey" FOREIGN KEY ("yard_id", "published_by_id") REFERENCES "member"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "claim" ADD CONSTRAINT "claim_yard_id_fkey" FOREIGN KEY ("yard_id") REFERENCES "yard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "claim" ADD CONSTRAINT "claim_yard_id_task_id_fkey" FOREIGN KEY ("yard_id", "task_id") REFERENCES "task"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "claim" ADD CONSTRAINT "claim_yard_id_member_id_fkey" FOREIGN KEY ("yard_id", "member_id") REFERENCES "member"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "claim_member" ADD CONSTRAINT "claim_member_yard_id_claim_id_fkey" FOREIGN KEY ("yard_id", "claim_id") REFERENCES "claim"("yard_id", "id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "claim_member" ADD CONSTRAINT "claim_member_yard_id_member_id_fkey" FOREIGN KEY ("yard_id", "member_id") REFERENCES "member"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "event" ADD CONSTRAINT "event_yard_id_fkey" FOREIGN KEY ("yard_id") REFERENCES "yard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "event" ADD CONSTRAINT "event_yard_id_by_member_id_fkey" FOREIGN KEY ("yard_id", "by_member_id") REFERENCES "member"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "idempotency_key" ADD CONSTRAINT "idempotency_key_yard_id_fkey" FOREIGN KEY ("yard_id") REFERENCES "yard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "idempotency_key" ADD CONSTRAINT "idempotency_key_yard_id_member_id_fkey" FOREIGN KEY ("yard_id", "member_id") REFERENCES "member"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;
