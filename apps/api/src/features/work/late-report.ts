import { DomainError } from '#kernel/error.ts';
import type { WorkCommand } from '#live/life/commands.ts';
import type { LifeChange } from '#live/life/life.ts';
import { standingPreparations } from '#persistence/live/reworks.ts';
import { madeRework, type MadeRework, withdrawRework } from '#persistence/live/withdraw-rework.ts';
import type { YardState } from '#persistence/live/yard-state.ts';
import { asJson } from '#persistence/rows.ts';
import { loadWorkload } from '#persistence/workload/store.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import type { Tx } from '../../platform/database/database.ts';
import { appendEvent } from '../../platform/database/events.ts';
import { placeOf } from './work-place.ts';
import type { Follows } from './work-rework.ts';

type Reported = Pick<WorkCommand, 'kind' | 'taskId'>;

const beginsWith: readonly WorkCommand['kind'][] = ['claim', 'start'];

/** Whether something that was added later stands before the task; told from memory, for all who claim. */
function isPreparedFor({ workload }: YardState, taskId: string): boolean {
  const added = new Set(workload.tasks.filter(({ rework }) => rework !== null).map(({ id }) => id));
  return added.size > 0 && workload.links.some(({ from, to }) => to === taskId && added.has(from));
}

/**
 * Preparations for the task since its window had shut, or to be ready when it will, that are dated after
 * the moment at which it was taken or begun; the newest first.
 */
export async function madeSince(
  tx: Tx,
  state: YardState,
  { kind, taskId }: Reported,
  at: Date,
): Promise<readonly string[]> {
  if (!beginsWith.includes(kind) || !isPreparedFor(state, taskId)) return [];
  return standingPreparations(tx, state.yard.id, taskId, at);
}

interface Withdrawn {
  /** As if they had never been made. */
  readonly state: YardState;
  /** Says so in the log, before what was reported. */
  readonly precedes: Follows;
}

/**
 * Takes back those preparations of which nobody has begun or claimed anything: what was done in time
 * needs none, however late it is told. Null where none is taken back. The caller holds `lockWork` and
 * the task's row, and what else is kept of the state is as it is stored.
 */
export async function withoutPreparations(
  tx: Tx,
  viewer: Viewer,
  state: YardState,
  { kind, taskId }: Reported,
  reworkIds: readonly string[],
): Promise<Withdrawn | null> {
  const { yardId } = viewer;
  const lives = new Map(state.lives);
  const told: Follows[] = [];
  const { name } = placeOf(state, taskId).task;
  const had = kind === 'claim' ? 'been taken in hand' : 'begun';
  const words = `“${name}” had ${had} in time: the preparation for it is not needed.`;
  for (const reworkId of reworkIds) {
    const event = await tx.event.findFirst({
      where: {
        yardId,
        kind: 'rework-made',
        subject: 'task',
        subjectId: taskId,
        payload: { path: ['reworkId'], equals: reworkId },
      },
    });
    const made = event && madeRework(event.payload);
    const changes = made && (await unlessBegun(tx, yardId, made));
    if (!changes) continue;
    for (const change of changes) lives.set(change.taskId, change.after);
    const payload = {
      reworkId,
      cause: 'missed-window',
      taskId,
      words,
      lives: changes.map((change) => asJson(change)),
    };
    told.push((later) => appendEvent(later, viewer, 'rework-undone', 'task', taskId, payload));
  }
  if (told.length === 0) return null;
  return {
    state: { ...state, workload: await loadWorkload(tx, yardId), lives, givenUp: [] },
    precedes: async (later) => {
      for (const tell of told) await tell(later);
    },
  };
}

/** Null, with nothing written, where something of it is in hand or the work is another by now. */
async function unlessBegun(
  tx: Tx,
  yardId: string,
  made: MadeRework,
): Promise<readonly LifeChange[] | null> {
  try {
    return await withdrawRework(tx, yardId, made);
  } catch (error) {
    if (error instanceof DomainError && error.code === 'work.undo') return null;
    throw error;
  }
}
