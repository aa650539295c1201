import { addDays } from '#calendar/local-date.ts';
import { toInstant } from '#calendar/local-time.ts';
import type { Prisma } from '#persistence/generated/client.ts';
import { loadOwnSheet } from '#persistence/plan/own-sheet.ts';
import { inOrder } from '#persistence/rows.ts';
import type { PlanSheet } from '#planning/decode/sheet.ts';
import type { Tx } from '../../platform/database/database.ts';

const refitTasks = {
  refits: {
    ...inOrder,
    include: {
      tasks: { orderBy: { id: 'asc' }, select: { id: true, state: true, finishedAt: true } },
    },
  },
} as const satisfies Prisma.BoatInclude;
export type OwnBoat = Prisma.BoatGetPayload<{ include: typeof refitTasks }>;

/** When a space that the own boats need is taken, by an own task or (null) by others. */
export interface Taken {
  readonly spaceId: string;
  readonly from: Date;
  readonly until: Date;
  readonly taskId: string | null;
}

/** Boats of one owner, and what the published plan says of those alone. */
export interface OwnBoats {
  readonly timeZone: string;
  readonly showsCrew: boolean;
  readonly boats: readonly OwnBoat[];
  readonly sheet: Pick<PlanSheet, 'boats' | 'tasks'> | null;
}

export async function ownBoats(tx: Tx, yardId: string, ownerId: string): Promise<OwnBoats> {
  const { timeZone, ownersSeeCrew } = await tx.yard.findUniqueOrThrow({ where: { id: yardId } });
  const boats = await tx.boat.findMany({
    where: { yardId, ownerId },
    ...inOrder,
    include: refitTasks,
  });
  const sheet = await loadOwnSheet(tx);
  const own = new Set(boats.map(({ id }) => id));
  return {
    timeZone,
    showsCrew: ownersSeeCrew,
    boats,
    sheet: sheet && {
      boats: sheet.boats.filter(({ boatId }) => own.has(boatId)),
      tasks: sheet.tasks.filter(({ boatId }) => own.has(boatId)),
    },
  };
}

/** Within the week that begins on the Monday, in the yard's zone. */
export function takenInWeek(tx: Tx, monday: string, timeZone: string): Promise<Taken[]> {
  const [since, until] = [monday, addDays(monday, 7)].map(
    (date) => new Date(toInstant(date, '00:00', timeZone) * 60_000),
  );
  return tx.$queryRaw<Taken[]>`
    SELECT space_id AS "spaceId", start_at AS "from", finish_at AS "until", task_id AS "taskId"
    FROM space_occupancy(${since}, ${until})`;
}
