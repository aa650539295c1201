import { DomainError } from '#kernel/error.ts';
import {
  clearSpaceDetails,
  saveSpaceDetails,
  saveSpaces,
  spaceDetails,
  spaceRow,
  toSpace,
} from '#persistence/yard/spaces.ts';
import type { Space as SpaceInput } from '#planning/yard/spaces.ts';
import type { Tx } from '../../platform/database/database.ts';
import { deletedOne } from '../../platform/database/delete-one.ts';
import { changedOne } from '../../platform/etag/revision.ts';
import { type Page, pageArgs, type PageRequest, toPage } from '../../platform/paging/page.ts';
import type { Space } from './spaces.contract.ts';

export async function listSpaces(tx: Tx, yardId: string, page: PageRequest): Promise<Page<Space>> {
  const { where, ...rest } = pageArgs(page);
  const rows = await tx.space.findMany({
    where: { yardId, ...where },
    ...rest,
    include: spaceDetails,
  });
  return toPage(rows, page, (row) => ({ ...toSpace(row), revision: row.revision }));
}

export async function findSpace(tx: Tx, yardId: string, id: string): Promise<Space> {
  const row = await tx.space.findUnique({
    where: { yardId_id: { yardId, id } },
    include: spaceDetails,
  });
  if (!row) throw new DomainError('record.missing', `There is no space "${id}".`);
  return { ...toSpace(row), revision: row.revision };
}

export async function insertSpace(tx: Tx, yardId: string, space: SpaceInput): Promise<void> {
  await saveSpaces(tx, yardId, [space]);
}

export async function updateSpace(
  tx: Tx,
  yardId: string,
  revision: number,
  space: SpaceInput,
): Promise<void> {
  const where = { yardId, id: space.id, revision };
  changedOne(await tx.space.updateMany({ where, data: spaceRow(yardId, space) }));
  await clearSpaceDetails(tx, yardId, space.id);
  await saveSpaceDetails(tx, yardId, space);
}

export async function deleteSpace(
  tx: Tx,
  yardId: string,
  id: string,
  revision: number,
): Promise<void> {
  await deletedOne(tx.space.deleteMany({ where: { yardId, id, revision } }));
}
