import { type ClaimLife, claimLifeSchema, type TaskLife } from '#live/life/life.ts';
import { inOrder, isoOf } from '#persistence/rows.ts';
import type { Tx } from '../../platform/database/database.ts';
import type { Claim } from './claims.contract.ts';
import { iso, overrideOf } from './claims.store.ts';
import { nameIn, type WorkPlace } from './work-place.ts';

/** How long a claim holds, and how long a report can be taken back. */
export function workSettings(
  tx: Tx,
  yardId: string,
): Promise<{ readonly leaseSeconds: number; readonly undoMinutes: number }> {
  const select = { leaseSeconds: true, undoMinutes: true } as const;
  return tx.yard.findUniqueOrThrow({ where: { id: yardId }, select });
}

/** The claim that lapsed last, as it was held: the one named, or of that member; null where none did. */
export async function lapsedClaim(
  tx: Tx,
  yardId: string,
  taskId: string,
  whose: { readonly claimId: string | undefined; readonly memberId: string },
): Promise<ClaimLife | null> {
  const { claimId, memberId } = whose;
  const row = await tx.claim.findFirst({
    where: {
      yardId,
      taskId,
      status: 'lapsed',
      ...(claimId === undefined ? { crew: { some: { memberId } } } : { id: claimId }),
    },
    // Not by when it was claimed: reports come in any order.
    orderBy: [{ updatedAt: 'desc' }, { id: 'desc' }],
    include: { crew: inOrder },
  });
  if (row === null) return null;
  return claimLifeSchema.parse({
    id: row.id,
    status: 'open',
    holder: row.memberId,
    crew: row.crew.map(({ memberId }) => memberId),
    claimedAt: row.claimedAt.toISOString(),
    lapsesAt: row.lapsesAt && row.lapsesAt.toISOString(),
    startedAt: null,
    override: null,
  });
}

/** A claim as it is now, by what is known of the yard already: one query instead of eight. */
export async function shownClaim(
  tx: Tx,
  { state, task }: WorkPlace,
  { id, holder, crew }: NonNullable<TaskLife['claim']>,
): Promise<Claim> {
  const { yard } = state;
  const row = await tx.claim.findUniqueOrThrow({ where: { yardId_id: { yardId: yard.id, id } } });
  const nameOf = nameIn(state);
  const boat = yard.boats.find(({ refits }) => refits.some((refit) => refit.id === task.refitId));
  const parts = boat?.refits.flatMap((refit) => refit.parts) ?? [];
  return {
    id,
    taskId: task.id,
    task: task.name,
    part: parts.find((part) => part.id === task.partId)?.name ?? task.partId,
    boat: boat?.name ?? '',
    holder: { id: holder, name: nameOf(holder) },
    crew: crew.map((member) => ({ id: member, name: nameOf(member) })),
    status: row.status,
    claimedAt: isoOf(row.claimedAt),
    lapsesAt: iso(row.lapsesAt),
    startedAt: iso(row.startedAt),
    finishedAt: iso(row.finishedAt),
    releasedAt: iso(row.releasedAt),
    override: overrideOf(row),
    revision: row.revision,
  };
}
