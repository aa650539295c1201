import { DomainError } from '#kernel/error.ts';
import { isoOf } from '#persistence/rows.ts';
import { refitDetails, refitRow, type RefitRow } from '#persistence/yard/boats.ts';
import type { Tx } from '../../platform/database/database.ts';
import { deletedOne } from '../../platform/database/delete-one.ts';
import { changedOne } from '../../platform/etag/revision.ts';
import type { Refit, RefitInput } from './boats.contract.ts';
import { insertPart, showPart } from './parts.store.ts';

export async function findRefit(tx: Tx, yardId: string, id: string): Promise<Refit> {
  const row = await tx.refit.findUnique({
    where: { yardId_id: { yardId, id } },
    include: refitDetails,
  });
  if (!row) throw new DomainError('record.missing', `There is no refit "${id}".`);
  return showRefit(row);
}

export async function insertRefit(
  tx: Tx,
  yardId: string,
  boatId: string,
  refit: RefitInput,
): Promise<void> {
  await tx.refit.create({ data: refitRow(yardId, boatId, refit) });
  for (const part of refit.parts) await insertPart(tx, yardId, refit.id, part);
}

export async function updateRefit(
  tx: Tx,
  yardId: string,
  id: string,
  revision: number,
  {
    name,
    release,
    promised,
    handovers,
    weight,
  }: Pick<Refit, 'name' | 'release' | 'promised' | 'handovers' | 'weight'>,
): Promise<void> {
  const data = {
    name,
    release: new Date(release),
    promised: promised === null ? null : new Date(promised),
    handovers: handovers.map((at) => new Date(at)),
    weight,
  };
  changedOne(await tx.refit.updateMany({ where: { yardId, id, revision }, data }));
}

/** Refused while it has parts. */
export async function deleteRefit(
  tx: Tx,
  yardId: string,
  id: string,
  revision: number,
): Promise<void> {
  await deletedOne(tx.refit.deleteMany({ where: { yardId, id, revision } }));
}

export function showRefit(row: RefitRow): Refit {
  const { id, name, release, promised, handovers, weight, parts, revision } = row;
  return {
    id,
    name,
    release: isoOf(release),
    promised: promised === null ? null : isoOf(promised),
    handovers: handovers.map(isoOf),
    weight,
    parts: parts.map(showPart),
    revision,
  };
}
