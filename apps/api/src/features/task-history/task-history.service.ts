import { Injectable } from '@nestjs/common';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database } from '../../platform/database/database.ts';
import type { TaskHistory } from './task-history.contract.ts';
import { findHistory } from './task-history.store.ts';

/** History is never rewritten: what was told and what was done stay beside one another. */
@Injectable()
export class TaskHistoryService {
  constructor(private readonly database: Database) {}

  get(viewer: Viewer, id: string): Promise<TaskHistory> {
    return this.database.inYard(viewer, (tx) => findHistory(tx, viewer.yardId, id));
  }
}
