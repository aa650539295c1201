-- Whom the foreman set a task for is remembered while it is worked on, so that work which is put
-- back is set for them again.

-- AlterTable
ALTER TABLE "task_crew" ADD COLUMN "set_by_foreman" BOOLEAN NOT NULL DEFAULT false;
UPDATE task_crew SET set_by_foreman = true
FROM task
WHERE task.yard_id = task_crew.yard_id AND task.id = task_crew.task_id AND task.state = 'waiting';
