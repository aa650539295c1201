-- AlterTable
ALTER TABLE "claim" ADD COLUMN     "lapses_at" TIMESTAMPTZ(3),
ADD COLUMN     "override_by_id" TEXT,
ADD COLUMN     "override_reason" TEXT;

-- A key is kept with its answer or not at all: of those without one nobody knows what became.
DELETE FROM "idempotency_key" WHERE "status" IS NULL;

-- AlterTable
ALTER TABLE "idempotency_key" DROP COLUMN "completed_at",
DROP COLUMN "status";

-- AlterTable
ALTER TABLE "plan_run" ADD COLUMN     "cause" JSONB NOT NULL DEFAULT '[]',
ADD COLUMN     "purpose" TEXT NOT NULL DEFAULT 'asked',
ADD COLUMN     "read_event_id" BIGINT;

-- AlterTable
ALTER TABLE "space" ADD COLUMN     "work_percent" INTEGER NOT NULL DEFAULT 100;

-- AlterTable
ALTER TABLE "task" ADD COLUMN     "left_minutes" DOUBLE PRECISION,
ADD COLUMN     "portion" DOUBLE PRECISION NOT NULL DEFAULT 1,
ADD COLUMN     "replaces_id" TEXT,
ADD COLUMN     "rework_id" UUID;

-- AlterTable
ALTER TABLE "yard" ADD COLUMN     "lease_seconds" INTEGER NOT NULL DEFAULT 1800,
ADD COLUMN     "publish_moves_up_to" INTEGER,
ADD COLUMN     "undo_minutes" INTEGER NOT NULL DEFAULT 10;

-- CreateTable
CREATE TABLE "push_subscription" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "account_id" UUID NOT NULL,
    "endpoint" TEXT NOT NULL,
    "p256dh" TEXT NOT NULL,
    "auth" TEXT NOT NULL,
    "agent" TEXT NOT NULL DEFAULT '',
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "last_sent_at" TIMESTAMPTZ(3),

    CONSTRAINT "push_subscription_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "work_span" (
    "yard_id" TEXT NOT NULL,
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "task_id" TEXT NOT NULL,
    "claim_id" UUID NOT NULL,
    "start_at" TIMESTAMPTZ(3) NOT NULL,
    "end_at" TIMESTAMPTZ(3),
    "crew" TEXT[],

    CONSTRAINT "work_span_pkey" PRIMARY KEY ("yard_id","id")
);

-- CreateTable
CREATE TABLE "report" (
    "yard_id" TEXT NOT NULL,
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "member_id" TEXT NOT NULL,
    "key" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "input" JSONB NOT NULL,
    "phone_at" TIMESTAMPTZ(3) NOT NULL,
    "phone_sent_at" TIMESTAMPTZ(3),
    "received_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "outcome" TEXT NOT NULL,
    "reason" JSONB NOT NULL DEFAULT '[]',
    "answer" JSONB,
    "settled_by_id" TEXT,
    "settled_at" TIMESTAMPTZ(3),
    "note" TEXT NOT NULL DEFAULT '',
    "revision" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "report_pkey" PRIMARY KEY ("yard_id","id")
);

-- CreateTable
CREATE TABLE "log_cursor" (
    "yard_id" TEXT NOT NULL,
    "event_id" BIGINT NOT NULL DEFAULT 0,

    CONSTRAINT "log_cursor_pkey" PRIMARY KEY ("yard_id")
);

-- CreateTable
CREATE TABLE "snag" (
    "yard_id" TEXT NOT NULL,
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "part_id" TEXT NOT NULL,
    "task_id" TEXT,
    "kind" TEXT NOT NULL,
    "words" TEXT NOT NULL,
    "area_m2" DOUBLE PRECISION,
    "state" TEXT NOT NULL DEFAULT 'open',
    "note" TEXT NOT NULL DEFAULT '',
    "shown_to_owner" BOOLEAN NOT NULL DEFAULT false,
    "raised_by_id" TEXT NOT NULL,
    "found_at" TIMESTAMPTZ(3) NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "revision" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "snag_pkey" PRIMARY KEY ("yard_id","id")
);

-- CreateTable
CREATE TABLE "snag_photo" (
    "yard_id" TEXT NOT NULL,
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "snag_id" UUID NOT NULL,
    "media_type" TEXT NOT NULL,
    "bytes" INTEGER NOT NULL,
    "width" INTEGER NOT NULL,
    "height" INTEGER NOT NULL,
    "sha256" BYTEA NOT NULL,
    "added_by_id" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "snag_photo_pkey" PRIMARY KEY ("yard_id","id")
);

-- CreateTable
CREATE TABLE "change_order" (
    "yard_id" TEXT NOT NULL,
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "refit_id" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "input" JSONB NOT NULL,
    "words" TEXT NOT NULL,
    "state" TEXT NOT NULL DEFAULT 'asked',
    "raised_by_id" TEXT NOT NULL,
    "decided_by_id" TEXT,
    "decided_at" TIMESTAMPTZ(3),
    "note" TEXT NOT NULL DEFAULT '',
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "revision" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "change_order_pkey" PRIMARY KEY ("yard_id","id")
);

-- CreateTable
CREATE TABLE "proposal" (
    "yard_id" TEXT NOT NULL,
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "snag_id" UUID,
    "change_order_id" UUID,
    "edits" JSONB NOT NULL,
    "effect" JSONB NOT NULL DEFAULT '{}',
    "meaning" JSONB NOT NULL DEFAULT '[]',
    "price" JSONB,
    "priced_at" TIMESTAMPTZ(3),
    "why" JSONB NOT NULL DEFAULT '[]',
    "read_event_id" BIGINT NOT NULL,
    "state" TEXT NOT NULL DEFAULT 'pricing',
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "revision" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "proposal_pkey" PRIMARY KEY ("yard_id","id")
);

-- CreateTable
CREATE TABLE "rework" (
    "yard_id" TEXT NOT NULL,
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "cause" TEXT NOT NULL,
    "snag_id" UUID,
    "task_id" TEXT NOT NULL,
    "words" TEXT NOT NULL,
    "edits" JSONB NOT NULL,
    "made_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "made_by_id" TEXT,

    CONSTRAINT "rework_pkey" PRIMARY KEY ("yard_id","id")
);

-- CreateTable
CREATE TABLE "alarm" (
    "yard_id" TEXT NOT NULL,
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "key" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "task_id" TEXT,
    "due_at" TIMESTAMPTZ(3) NOT NULL,
    "state" TEXT NOT NULL DEFAULT 'armed',
    "audience" TEXT[],
    "words" TEXT NOT NULL,
    "payload" JSONB NOT NULL DEFAULT '{}',
    "moves" INTEGER NOT NULL DEFAULT 0,
    "rung_at" TIMESTAMPTZ(3),
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "revision" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "alarm_pkey" PRIMARY KEY ("yard_id","id")
);

-- CreateTable
CREATE TABLE "alarm_receipt" (
    "yard_id" TEXT NOT NULL,
    "alarm_id" UUID NOT NULL,
    "member_id" TEXT NOT NULL,
    "shown_at" TIMESTAMPTZ(3),
    "acknowledged_at" TIMESTAMPTZ(3),

    CONSTRAINT "alarm_receipt_pkey" PRIMARY KEY ("yard_id","alarm_id","member_id")
);

-- CreateTable
CREATE TABLE "calendar_link" (
    "yard_id" TEXT NOT NULL,
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "member_id" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "space_id" TEXT,
    "name" TEXT NOT NULL,
    "token_hash" BYTEA NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "last_read_at" TIMESTAMPTZ(3),
    "revoked_at" TIMESTAMPTZ(3),

    CONSTRAINT "calendar_link_pkey" PRIMARY KEY ("yard_id","id")
);

-- CreateTable
CREATE TABLE "calendar_item" (
    "yard_id" TEXT NOT NULL,
    "link_id" UUID NOT NULL,
    "uid" TEXT NOT NULL,
    "mark" TEXT NOT NULL,
    "sequence" INTEGER NOT NULL DEFAULT 0,
    "entry" JSONB NOT NULL,
    "cancelled" BOOLEAN NOT NULL DEFAULT false,
    "changed_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "calendar_item_pkey" PRIMARY KEY ("yard_id","link_id","uid")
);

-- CreateTable
CREATE TABLE "publishing" (
    "yard_id" TEXT NOT NULL,
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "plan_id" UUID NOT NULL,
    "published_by_id" TEXT,
    "published_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "publishing_pkey" PRIMARY KEY ("yard_id","id")
);

-- CreateTable
CREATE TABLE "candidate" (
    "yard_id" TEXT NOT NULL,
    "plan_id" UUID NOT NULL,
    "base_plan_id" UUID,
    "read_event_id" BIGINT NOT NULL DEFAULT 0,
    "state" TEXT NOT NULL DEFAULT 'open',
    "moved" INTEGER NOT NULL,
    "disturbance" DOUBLE PRECISION NOT NULL,
    "cause" JSONB NOT NULL DEFAULT '[]',
    "decided_by_id" TEXT,
    "decided_at" TIMESTAMPTZ(3),
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "revision" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "candidate_pkey" PRIMARY KEY ("yard_id","plan_id")
);

-- CreateIndex
CREATE UNIQUE INDEX "push_subscription_endpoint_key" ON "push_subscription"("endpoint");

-- CreateIndex
CREATE INDEX "push_subscription_account_id_idx" ON "push_subscription"("account_id");

-- CreateIndex
CREATE INDEX "work_span_yard_id_task_id_idx" ON "work_span"("yard_id", "task_id");

-- CreateIndex
CREATE INDEX "work_span_yard_id_claim_id_idx" ON "work_span"("yard_id", "claim_id");

-- CreateIndex
CREATE INDEX "report_yard_id_outcome_received_at_idx" ON "report"("yard_id", "outcome", "received_at");

-- CreateIndex
CREATE UNIQUE INDEX "report_yard_id_member_id_key_key" ON "report"("yard_id", "member_id", "key");

-- CreateIndex
CREATE INDEX "snag_yard_id_part_id_idx" ON "snag"("yard_id", "part_id");

-- CreateIndex
CREATE INDEX "snag_yard_id_raised_by_id_idx" ON "snag"("yard_id", "raised_by_id");

-- CreateIndex
CREATE INDEX "snag_yard_id_state_idx" ON "snag"("yard_id", "state");

-- CreateIndex
CREATE INDEX "snag_photo_yard_id_snag_id_idx" ON "snag_photo"("yard_id", "snag_id");

-- CreateIndex
CREATE INDEX "change_order_yard_id_refit_id_idx" ON "change_order"("yard_id", "refit_id");

-- CreateIndex
CREATE INDEX "change_order_yard_id_raised_by_id_idx" ON "change_order"("yard_id", "raised_by_id");

-- CreateIndex
CREATE INDEX "change_order_yard_id_state_idx" ON "change_order"("yard_id", "state");

-- CreateIndex
CREATE INDEX "proposal_yard_id_snag_id_idx" ON "proposal"("yard_id", "snag_id");

-- CreateIndex
CREATE INDEX "proposal_yard_id_change_order_id_idx" ON "proposal"("yard_id", "change_order_id");

-- CreateIndex
CREATE INDEX "rework_yard_id_snag_id_idx" ON "rework"("yard_id", "snag_id");

-- CreateIndex
CREATE INDEX "alarm_yard_id_state_due_at_idx" ON "alarm"("yard_id", "state", "due_at");

-- CreateIndex
CREATE INDEX "alarm_yard_id_key_idx" ON "alarm"("yard_id", "key");

-- CreateIndex
CREATE INDEX "alarm_receipt_yard_id_member_id_idx" ON "alarm_receipt"("yard_id", "member_id");

-- CreateIndex
CREATE UNIQUE INDEX "calendar_link_token_hash_key" ON "calendar_link"("token_hash");

-- CreateIndex
CREATE INDEX "calendar_link_yard_id_member_id_idx" ON "calendar_link"("yard_id", "member_id");

-- CreateIndex
CREATE INDEX "publishing_yard_id_published_at_idx" ON "publishing"("yard_id", "published_at");

-- CreateIndex
CREATE INDEX "publishing_yard_id_plan_id_idx" ON "publishing"("yard_id", "plan_id");

-- CreateIndex
CREATE INDEX "candidate_yard_id_state_idx" ON "candidate"("yard_id", "state");

-- CreateIndex
CREATE INDEX "task_yard_id_rework_id_idx" ON "task"("yard_id", "rework_id");

-- AddForeignKey
ALTER TABLE "push_subscription" ADD CONSTRAINT "push_subscription_account_id_fkey" FOREIGN KEY ("account_id") REFERENCES "account"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "work_span" ADD CONSTRAINT "work_span_yard_id_task_id_fkey" FOREIGN KEY ("yard_id", "task_id") REFERENCES "task"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "work_span" ADD CONSTRAINT "work_span_yard_id_claim_id_fkey" FOREIGN KEY ("yard_id", "claim_id") REFERENCES "claim"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "report" ADD CONSTRAINT "report_yard_id_fkey" FOREIGN KEY ("yard_id") REFERENCES "yard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "report" ADD CONSTRAINT "report_yard_id_member_id_fkey" FOREIGN KEY ("yard_id", "member_id") REFERENCES "member"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "log_cursor" ADD CONSTRAINT "log_cursor_yard_id_fkey" FOREIGN KEY ("yard_id") REFERENCES "yard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "snag" ADD CONSTRAINT "snag_yard_id_fkey" FOREIGN KEY ("yard_id") REFERENCES "yard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "snag" ADD CONSTRAINT "snag_yard_id_part_id_fkey" FOREIGN KEY ("yard_id", "part_id") REFERENCES "part"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "snag" ADD CONSTRAINT "snag_yard_id_raised_by_id_fkey" FOREIGN KEY ("yard_id", "raised_by_id") REFERENCES "member"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "snag_photo" ADD CONSTRAINT "snag_photo_yard_id_snag_id_fkey" FOREIGN KEY ("yard_id", "snag_id") REFERENCES "snag"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "change_order" ADD CONSTRAINT "change_order_yard_id_fkey" FOREIGN KEY ("yard_id") REFERENCES "yard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "change_order" ADD CONSTRAINT "change_order_yard_id_refit_id_fkey" FOREIGN KEY ("yard_id", "refit_id") REFERENCES "refit"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "change_order" ADD CONSTRAINT "change_order_yard_id_raised_by_id_fkey" FOREIGN KEY ("yard_id", "raised_by_id") REFERENCES "member"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "proposal" ADD CONSTRAINT "proposal_yard_id_fkey" FOREIGN KEY ("yard_id") REFERENCES "yard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "proposal" ADD CONSTRAINT "proposal_yard_id_snag_id_fkey" FOREIGN KEY ("yard_id", "snag_id") REFERENCES "snag"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "proposal" ADD CONSTRAINT "proposal_yard_id_change_order_id_fkey" FOREIGN KEY ("yard_id", "change_order_id") REFERENCES "change_order"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "rework" ADD CONSTRAINT "rework_yard_id_fkey" FOREIGN KEY ("yard_id") REFERENCES "yard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "rework" ADD CONSTRAINT "rework_yard_id_snag_id_fkey" FOREIGN KEY ("yard_id", "snag_id") REFERENCES "snag"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "alarm" ADD CONSTRAINT "alarm_yard_id_fkey" FOREIGN KEY ("yard_id") REFERENCES "yard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "alarm_receipt" ADD CONSTRAINT "alarm_receipt_yard_id_alarm_id_fkey" FOREIGN KEY ("yard_id", "alarm_id") REFERENCES "alarm"("yard_id", "id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "alarm_receipt" ADD CONSTRAINT "alarm_receipt_yard_id_member_id_fkey" FOREIGN KEY ("yard_id", "member_id") REFERENCES "member"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "calendar_link" ADD CONSTRAINT "calendar_link_yard_id_fkey" FOREIGN KEY ("yard_id") REFERENCES "yard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "calendar_link" ADD CONSTRAINT "calendar_link_yard_id_member_id_fkey" FOREIGN KEY ("yard_id", "member_id") REFERENCES "member"("yard_id", "id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "calendar_item" ADD CONSTRAINT "calendar_item_yard_id_link_id_fkey" FOREIGN KEY ("yard_id", "link_id") REFERENCES "calendar_link"("yard_id", "id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "publishing" ADD CONSTRAINT "publishing_yard_id_fkey" FOREIGN KEY ("yard_id") REFERENCES "yard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "publishing" ADD CONSTRAINT "publishing_yard_id_plan_id_fkey" FOREIGN KEY ("yard_id", "plan_id") REFERENCES "plan"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "candidate" ADD CONSTRAINT "candidate_yard_id_fkey" FOREIGN KEY ("yard_id") REFERENCES "yard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "candidate" ADD CONSTRAINT "candidate_yard_id_plan_id_fkey" FOREIGN KEY ("yard_id", "plan_id") REFERENCES "plan"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "task" ADD CONSTRAINT "task_yard_id_rework_id_fkey" FOREIGN KEY ("yard_id", "rework_id") REFERENCES "rework"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;
