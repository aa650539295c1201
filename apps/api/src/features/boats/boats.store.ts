import { DomainError } from '#kernel/error.ts';
import { boatDetails, type BoatRow, saveBoats } from '#persistence/yard/boats.ts';
import type { Tx } from '../../platform/database/database.ts';
import { deletedOne } from '../../platform/database/delete-one.ts';
import { changedOne } from '../../platform/etag/revision.ts';
import { type Page, pageArgs, type PageRequest, toPage } from '../../platform/paging/page.ts';
import type { Boat, BoatInput } from './boats.contract.ts';
import { showRefit } from './refits.store.ts';

/** Of one owner only, or of all. */
type OwnerFilter = Readonly<{ ownerId?: string }>;

export async function listBoats(
  tx: Tx,
  yardId: string,
  page: PageRequest,
  owner: OwnerFilter,
): Promise<Page<Boat>> {
  const { where, ...rest } = pageArgs(page);
  const rows = await tx.boat.findMany({
    where: { yardId, ...where, ...owner },
    ...rest,
    include: boatDetails,
  });
  return toPage(rows, page, showBoat);
}

export async function findBoat(
  tx: Tx,
  yardId: string,
  id: string,
  owner: OwnerFilter = {},
): Promise<Boat> {
  const row = await tx.boat.findFirst({ where: { yardId, id, ...owner }, include: boatDetails });
  if (!row) throw new DomainError('record.missing', `There is no boat "${id}".`);
  return showBoat(row);
}

export async function insertBoat(tx: Tx, yardId: string, boat: BoatInput): Promise<void> {
  await saveBoats(tx, yardId, [boat]);
}

export async function updateBoat(
  tx: Tx,
  yardId: string,
  id: string,
  revision: number,
  { name, owner }: Pick<Boat, 'name' | 'owner'>,
): Promise<void> {
  changedOne(
    await tx.boat.updateMany({ where: { yardId, id, revision }, data: { name, ownerId: owner } }),
  );
}

/** Refused while it has refits: their work is not thrown away unseen. */
export async function deleteBoat(
  tx: Tx,
  yardId: string,
  id: string,
  revision: number,
): Promise<void> {
  await deletedOne(tx.boat.deleteMany({ where: { yardId, id, revision } }));
}

function showBoat({ id, name, ownerId, refits, revision }: BoatRow): Boat {
  return { id, name, owner: ownerId, refits: refits.map(showRefit), revision };
}
