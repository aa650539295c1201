import type { Prisma } from '#persistence/generated/client.ts';
import { readSheet } from '#persistence/plan/sheet.ts';
import { inOrder } from '#persistence/rows.ts';
import type { PlanSheet } from '#planning/decode/sheet.ts';
import type { Tx } from '../../platform/database/database.ts';

const refitTasks = {
  refits: {
    ...inOrder,
    include: { tasks: { select: { id: true, state: true, finishedAt: true } } },
  },
} as const satisfies Prisma.BoatInclude;
export type OwnBoat = Prisma.BoatGetPayload<{ include: typeof refitTasks }>;

/** Boats of one owner, and what the published plan says of those alone. */
export interface OwnBoats {
  readonly timeZone: string;
  readonly boats: readonly OwnBoat[];
  readonly sheet: Pick<PlanSheet, 'boats' | 'tasks'> | null;
}

export async function ownBoats(tx: Tx, yardId: string, ownerId: string): Promise<OwnBoats> {
  const { timeZone } = await tx.yard.findUniqueOrThrow({ where: { id: yardId } });
  const boats = await tx.boat.findMany({
    where: { yardId, ownerId },
    ...inOrder,
    include: refitTasks,
  });
  const published = await tx.publishedPlan.findUnique({
    where: { yardId },
    select: { plan: { select: { sheet: true } } },
  });
  const sheet = published && readSheet(published.plan.sheet);
  const own = new Set(boats.map(({ id }) => id));
  return {
    timeZone,
    boats,
    sheet: sheet && {
      boats: sheet.boats.filter(({ boatId }) => own.has(boatId)),
      tasks: sheet.tasks.filter(({ boatId }) => own.has(boatId)),
    },
  };
}
