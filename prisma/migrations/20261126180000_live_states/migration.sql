-- States of live work. Alone: a value that a transaction adds to an enum cannot be used in it.
ALTER TYPE "claim_status" ADD VALUE 'paused';
ALTER TYPE "claim_status" ADD VALUE 'lapsed';
ALTER TYPE "task_state" ADD VALUE 'paused';
ALTER TYPE "task_state" ADD VALUE 'redo';
ALTER TYPE "task_state" ADD VALUE 'dropped';
