import { createHash } from 'node:crypto';
import { loadOwnProposals } from '#persistence/live/own-proposals.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import type { Tx } from '../../platform/database/database.ts';
import { ownBoats } from './my-boats.store.ts';

/** Of each own boat a digest of all that its owner reads of it, by the boat's id. */
export async function fingerprints(
  tx: Tx,
  { yardId, memberId }: Pick<Viewer, 'yardId' | 'memberId'>,
): Promise<Map<string, string>> {
  const own = await ownBoats(tx, yardId, memberId);
  const boat = { ownerId: memberId };
  const changes = await tx.changeOrder.findMany({
    where: { yardId, refit: { boat } },
    orderBy: { id: 'asc' },
    select: { id: true, state: true, note: true, refit: { select: { boatId: true } } },
  });
  const proposals = await loadOwnProposals(tx);
  const parts = await tx.part.findMany({
    where: { yardId, refit: { boat } },
    orderBy: { id: 'asc' },
    select: { id: true, revision: true, refit: { select: { boatId: true } } },
  });
  const boatOf = new Map(parts.map(({ id, refit }) => [id, refit.boatId]));
  const snags = await tx.snag.findMany({
    where: { yardId, shownToOwner: true, partId: { in: [...boatOf.keys()] } },
    orderBy: { id: 'asc' },
    include: { photos: { orderBy: { id: 'asc' }, select: { id: true } } },
  });
  return new Map(
    own.boats.map((one) => {
      const isOf = ({ refit }: { readonly refit: { readonly boatId: string } }): boolean =>
        refit.boatId === one.id;
      const asked = changes.filter(isOf);
      const read = {
        zone: own.timeZone,
        showsCrew: own.showsCrew,
        boat: one,
        boats: own.sheet?.boats.filter(({ boatId }) => boatId === one.id),
        tasks: own.sheet?.tasks.filter(({ boatId }) => boatId === one.id),
        parts: parts.filter(isOf),
        snags: snags.filter(({ partId }) => boatOf.get(partId) === one.id),
        asked,
        proposals: proposals.filter(({ changeOrderId }) =>
          asked.some(({ id }) => id === changeOrderId),
        ),
      };
      return [one.id, createHash('sha256').update(JSON.stringify(read)).digest('base64url')];
    }),
  );
}
