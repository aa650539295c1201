import { Injectable } from '@nestjs/common';
import { DomainError, fault } from '#kernel/error.ts';
import { phoneMoment } from '#live/life/phone.ts';
import { defects, snagKinds, type SnagKind } from '#live/rework/defects.ts';
import { cannotLie } from '#live/rework/suspect.ts';
import { loadForEdits } from '#persistence/live/edits.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database, type Tx } from '../../platform/database/database.ts';
import { appendEvent } from '../../platform/database/events.ts';
import { changedOne } from '../../platform/etag/revision.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { ProposalsService } from '../proposals/proposals.service.ts';
import type { Snag, SnagInput, SnagKinds, SnagPatch, SnagsFilter } from './snags.contract.ts';
import { findSnag, listSnags, lockSnag, showSnag, type SnagRow } from './snags.store.ts';

@Injectable()
export class SnagsService {
  constructor(
    private readonly database: Database,
    private readonly proposals: ProposalsService,
  ) {}

  /** What can be wrong, in the words of the trade. */
  kinds(): SnagKinds {
    return {
      items: snagKinds.map((kind) => {
        const { name, shows, source } = defects[kind];
        return { kind, name, shows, source };
      }),
    };
  }

  list(viewer: Viewer, filter: SnagsFilter, page: PageRequest): Promise<Page<Snag>> {
    return this.database.inYard(viewer, (tx) => listSnags(tx, viewer, filter, page));
  }

  get(viewer: Viewer, id: string): Promise<Snag> {
    return this.database.inYard(viewer, async (tx) =>
      this.shown(tx, viewer, await findSnag(tx, viewer.yardId, id)),
    );
  }

  raise(
    viewer: Viewer,
    partId: string,
    { kind, words, taskId, areaM2, ...times }: SnagInput,
  ): Promise<Snag> {
    const { yardId, memberId } = viewer;
    const foundAt = phoneMoment(times, new Date());
    return this.database.inYard(viewer, async (tx) => {
      const part = await tx.part.findUnique({
        where: { yardId_id: { yardId, id: partId } },
        select: { areaM2: true },
      });
      if (!part) throw new DomainError('record.missing', `There is no part "${partId}".`);
      assertArea(areaM2, part.areaM2);
      await assertTask(tx, yardId, partId, taskId, kind);
      const { id } = await tx.snag.create({
        data: { yardId, partId, taskId, kind, words, areaM2, raisedById: memberId, foundAt },
        select: { id: true },
      });
      await appendEvent(tx, viewer, 'snag-raised', 'snag', id, { partId, kind });
      return this.shown(tx, viewer, await findSnag(tx, yardId, id));
    });
  }

  /** What it is about can be corrected until a rework is agreed to; a rework proposed before is void then. */
  update(viewer: Viewer, id: string, revision: number, patch: SnagPatch): Promise<Snag> {
    const { yardId, roles } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      const before = await lockSnag(tx, yardId, id);
      if (patch.shownToOwner !== undefined && !roles.includes('foreman'))
        throw new DomainError('access.role', 'Only the foreman shows a snag to the owner.');
      const after = { ...before, ...defined(patch) };
      const kind = patch.kind ?? (before.kind as SnagKind);
      const moved =
        kind !== before.kind || after.taskId !== before.taskId || after.areaM2 !== before.areaM2;
      if (moved) {
        assertState(before, ['open', 'proposed'], 'can no longer be about something else');
        const { areaM2 } = await tx.part.findUniqueOrThrow({
          where: { yardId_id: { yardId, id: before.partId } },
        });
        assertArea(after.areaM2, areaM2);
        await assertTask(tx, yardId, before.partId, after.taskId, kind);
        await this.proposals.close(tx, yardId, { snagId: id }, 'superseded');
      }
      const { words, taskId, areaM2, shownToOwner } = after;
      const state = moved ? 'open' : before.state;
      changedOne(
        await tx.snag.updateMany({
          where: { yardId, id, revision },
          data: { kind, words, taskId, areaM2, shownToOwner, state },
        }),
      );
      await appendEvent(tx, viewer, 'snag-changed', 'snag', id);
      return this.shown(tx, viewer, await findSnag(tx, yardId, id));
    });
  }

  /** As the viewer sees it, with what is proposed where they decide it. */
  async shown(tx: Tx, viewer: Viewer, row: SnagRow): Promise<Snag> {
    const { yardId, roles } = viewer;
    const proposal = roles.includes('foreman')
      ? await this.proposals.latest(tx, yardId, { snagId: row.id })
      : null;
    return showSnag(tx, viewer, row, proposal);
  }
}

/** What was sent: fields that were left out stay as they are. */
function defined(patch: SnagPatch): Partial<SnagRow> {
  return Object.fromEntries(Object.entries(patch).filter(([, value]) => value !== undefined));
}

export function assertState(
  { state }: Pick<SnagRow, 'state'>,
  states: readonly string[],
  words: string,
): void {
  if (states.includes(state)) return;
  throw new DomainError('snag.state', `The snag is ${state}, and ${words}.`);
}

function wrongField(path: string, value: unknown, message: string, cure: string): DomainError {
  const faults = [fault('input.field', path, message, { value, cure })];
  return new DomainError('input.field', `${path}: ${message}`, { cure, faults });
}

/** A part without an area is measured by its edges and joints alone. */
function assertArea(areaM2: number | null, whole: number): void {
  if (areaM2 === null || whole === 0 || areaM2 <= whole) return;
  throw wrongField(
    'areaM2',
    areaM2,
    `the part has ${String(whole)} m²`,
    'Give no more than that, or null for all that the task covers.',
  );
}

/** The task is done work of that part, in which such a defect can lie. */
async function assertTask(
  tx: Tx,
  yardId: string,
  partId: string,
  taskId: string | null,
  kind: SnagKind,
): Promise<void> {
  if (taskId === null) return;
  const { yard, workload } = await loadForEdits(tx, yardId);
  const task = workload.tasks.find((one) => one.id === taskId && one.partId === partId);
  if (task === undefined)
    throw wrongField('taskId', taskId, 'the part has no such task', 'Name a task of this part.');
  if (task.state !== 'done' || task.skill === null)
    throw wrongField(
      'taskId',
      taskId,
      `“${task.name}” is ${task.skill === null ? 'no work of a crew' : task.state}`,
      'Name the done task whose work is at fault, or null.',
    );
  const wrong = cannotLie(yard, task, kind);
  if (wrong !== null)
    throw wrongField(
      'taskId',
      taskId,
      wrong,
      'Name another task or kind, or null for the likeliest.',
    );
}
