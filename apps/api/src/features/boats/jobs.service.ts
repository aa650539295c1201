import { Injectable } from '@nestjs/common';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database } from '../../platform/database/database.ts';
import { appendEvent } from '../../platform/database/events.ts';
import { patched } from '../../platform/shapes/layers.ts';
import { assertFits } from '../soundness/soundness.service.ts';
import type { Job, JobInput, JobPatch } from './boats.contract.ts';
import { deleteJob, findJob, insertJob, updateJob } from './jobs.store.ts';
import { findPart } from './parts.store.ts';
import { withJob } from './placing.ts';
import { makeTasks, removeTasks } from '../workload/workload.service.ts';

@Injectable()
export class JobsService {
  constructor(private readonly database: Database) {}

  get(viewer: Viewer, id: string): Promise<Job> {
    return this.database.inYard(viewer, (tx) => findJob(tx, viewer.yardId, id));
  }

  /** Carries out the current version of a procedure on the part: makes its tasks. */
  create(viewer: Viewer, partId: string, input: JobInput): Promise<Job> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      await findPart(tx, yardId, partId);
      await assertFits(tx, yardId, (yard) => withJob(yard, input, partId));
      await insertJob(tx, yardId, partId, input);
      const made = await makeTasks(tx, yardId);
      await appendEvent(tx, viewer, 'job-added', 'job', input.id, { partId, tasks: made });
      return findJob(tx, yardId, input.id);
    });
  }

  /** What it waits for; plans to come heed it, the job's tasks stay. */
  update(viewer: Viewer, id: string, revision: number, patch: JobPatch): Promise<Job> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      const changed = asGiven(patched(await findJob(tx, yardId, id), patch));
      const { partId } = await tx.job.findUniqueOrThrow({ where: { yardId_id: { yardId, id } } });
      await assertFits(tx, yardId, (yard) => withJob(yard, changed, partId));
      await updateJob(tx, yardId, id, revision, changed);
      await appendEvent(tx, viewer, 'job-changed', 'job', id);
      return findJob(tx, yardId, id);
    });
  }

  /** Takes its tasks with it, as long as nobody has begun one. */
  remove(viewer: Viewer, id: string): Promise<void> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      await findJob(tx, yardId, id);
      await removeTasks(tx, yardId, id);
      await deleteJob(tx, yardId, id);
      await appendEvent(tx, viewer, 'job-removed', 'job', id);
    });
  }
}

/** The job as the yard file has it. */
function asGiven({ procedureVersion: _version, revision: _revision, ...job }: Job): JobInput {
  return job;
}
