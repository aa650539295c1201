import { Injectable } from '@nestjs/common';
import type { Person } from '#planning/yard/people.ts';
import type { SheetTask } from '#planning/decode/sheet.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database } from '../../platform/database/database.ts';
import type { Claim } from './claims.contract.ts';
import { heldClaims } from './claims.store.ts';
import { briefingSchema, type Ready, type ReadyTask, type Whose } from './ready.contract.ts';
import { standing } from './ready.store.ts';

type Listed = Pick<ReadyTask, 'taskId' | 'skill' | 'minLevel'>;
type Context = Pick<ReadyTask, 'planned' | 'plannedForMe' | 'claim'>;

@Injectable()
export class ReadyService {
  constructor(private readonly database: Database) {}

  /** What may be begun now and what waits for what, in the order in which the published plan needs it. */
  ready(viewer: Viewer, whose: Whose): Promise<Ready> {
    const now = new Date();
    return this.database.inYard(viewer, async (tx) => {
      const { yard, sheet, planId, ready, waiting } = await standing(tx, viewer.yardId, now);
      const claims = new Map(
        (await heldClaims(tx, viewer.yardId)).map((claim) => [claim.taskId, claim]),
      );
      const planned = new Map(sheet?.tasks.map((task) => [task.id, task]));
      const me = yard.people.find(({ id }) => id === viewer.memberId);
      const wanted = whose ?? (viewer.roles.includes('foreman') ? 'all' : 'mine');
      const shown = <T extends Listed>(tasks: readonly T[]): (T & Context)[] =>
        tasks
          .filter((task) => wanted === 'all' || isMine(task, claims.get(task.taskId), me))
          .map((task) => ({
            ...task,
            ...contextOf(planned.get(task.taskId), claims.get(task.taskId), viewer),
          }));
      return {
        at: now.toISOString(),
        planId,
        ready: inOrder(
          shown(ready).map((task) => ({ ...task, ...briefingSchema.parse(task) })),
          ({ startBy }) => startBy?.at,
        ),
        waiting: inOrder(shown(waiting), () => undefined),
      };
    });
  }
}

/** Mine to take: the skill is there, and nobody else holds it. */
function isMine(task: Listed, claim: Claim | undefined, me: Person | undefined): boolean {
  if (me === undefined) return false;
  if (claim) return claim.crew.some(({ id }) => id === me.id);
  return me.abilities.some(({ skill, level }) => skill === task.skill && level >= task.minLevel);
}

function contextOf(task: SheetTask | undefined, claim: Claim | undefined, viewer: Viewer): Context {
  return {
    planned: task
      ? {
          start: task.start,
          finish: task.finish,
          crew: [...task.crew],
        }
      : null,
    plannedForMe: task?.crew.some(({ personId }) => personId === viewer.memberId) ?? false,
    claim: claim ? { id: claim.id, status: claim.status, crew: claim.crew } : null,
  };
}

/** By the earlier of when a window presses and when the plan begins it; what neither names comes last. */
function inOrder<T extends Context>(tasks: T[], pressing: (task: T) => string | undefined): T[] {
  const due = (task: T): number =>
    Math.min(
      Date.parse(pressing(task) ?? '9999-12-31'),
      Date.parse(task.planned?.start.at ?? '9999-12-31'),
    );
  return tasks.sort((a, b) => due(a) - due(b));
}
