-- A plan in the yard's words is kept with it, since the yard goes on changing and the plan does
-- not. No default: a plan from before would have none, and there is none from before.
ALTER TABLE "plan" ADD COLUMN "sheet" JSONB NOT NULL,
  ADD COLUMN "map" JSONB NOT NULL;

ALTER TABLE "plan_run" ADD COLUMN "not_before" TIMESTAMPTZ(3);
