import { Injectable } from '@nestjs/common';
import { gather } from '#live/learning/evidence.ts';
import { productivityOf } from '#live/learning/productivity.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database } from '../../platform/database/database.ts';
import { appendEvent } from '../../platform/database/events.ts';
import { YardStates } from '../../platform/database/yard-states.ts';
import { applyChange } from './apply-productivity.ts';
import type {
  Productivity,
  ProductivityApplied,
  ProductivityInput,
} from './productivity.contract.ts';
import { allVersions, lastDone, revisionsOf, spansOf } from './productivity.store.ts';
import { showProductivity } from './show-productivity.ts';

/** What finished work tells of the numbers that a plan is made with, and the foreman's word on it. */
@Injectable()
export class ProductivityService {
  constructor(
    private readonly database: Database,
    private readonly states: YardStates,
  ) {}

  async get(viewer: Viewer): Promise<Productivity> {
    const { yardId } = viewer;
    const { state, revisions, ...input } = await this.database.inYard(viewer, async (tx) => {
      const state = await this.states.at(tx, yardId);
      const tasks = lastDone(state.workload.tasks);
      return {
        state,
        tasks,
        spans: await spansOf(tx, yardId, tasks),
        versions: await allVersions(tx, yardId),
        revisions: await revisionsOf(tx, yardId),
      };
    });
    const { evidence, leftOut } = gather({ yard: state.yard, ...input });
    return showProductivity(productivityOf(evidence), leftOut, state, revisions);
  }

  /** The event tells the number before and after, and what it goes by. */
  apply(viewer: Viewer, input: ProductivityInput): Promise<ProductivityApplied> {
    const { change, factor } = input;
    return this.database.inYard(viewer, async (tx) => {
      const applied = await applyChange(tx, viewer.yardId, input);
      const { subject, subjectId, words, before, after, tasks, revision } = applied;
      const payload = { change, factor, before, after, words, tasks };
      await appendEvent(tx, viewer, 'productivity-applied', subject, subjectId, payload);
      return { words, tasks, revision };
    });
  }
}
