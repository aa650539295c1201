-- Runs from before did not keep it: null, as where no plan was found.
ALTER TABLE "plan_run" ADD COLUMN "first_plan_ms" DOUBLE PRECISION;
