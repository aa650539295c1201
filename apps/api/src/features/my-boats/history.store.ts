import type { Prisma } from '#persistence/generated/client.ts';
import type { Tx } from '../../platform/database/database.ts';

/** Of one own boat, since a moment. */
interface Of {
  readonly yardId: string;
  readonly boatId: string;
  readonly since: Date;
}

const doneTask = {
  name: true,
  finishedAt: true,
  part: { select: { name: true } },
} as const satisfies Prisma.TaskSelect;
export type DoneTask = Prisma.TaskGetPayload<{ select: typeof doneTask }>;

export function doneSince(tx: Tx, { yardId, boatId, since }: Of): Promise<DoneTask[]> {
  return tx.task.findMany({
    where: { yardId, refit: { boatId }, state: 'done', finishedAt: { gte: since } },
    orderBy: [{ finishedAt: 'asc' }, { id: 'asc' }],
    select: doneTask,
  });
}

const ofPart = { part: { select: { name: true } } } as const satisfies Prisma.SnagInclude;
export type FoundSnag = Prisma.SnagGetPayload<{ include: typeof ofPart }>;

/** Those that their owner is shown. */
export function snagsSince(tx: Tx, { yardId, boatId, since }: Of): Promise<FoundSnag[]> {
  return tx.snag.findMany({
    where: { yardId, shownToOwner: true, part: { refit: { boatId } }, foundAt: { gte: since } },
    include: ofPart,
  });
}

export type AskedChange = Prisma.ChangeOrderGetPayload<object>;

/** Asked for or decided since. */
export function changesSince(tx: Tx, { yardId, boatId, since }: Of): Promise<AskedChange[]> {
  return tx.changeOrder.findMany({
    where: {
      yardId,
      refit: { boatId },
      OR: [{ createdAt: { gte: since } }, { decidedAt: { gte: since } }],
    },
  });
}
