import { DomainError } from '#kernel/error.ts';
import { partDetails, partRow, type PartRow } from '#persistence/yard/boats.ts';
import { saveJobs } from '#persistence/yard/jobs.ts';
import { saveLayers, toLayer } from '#persistence/yard/layers.ts';
import type { Tx } from '../../platform/database/database.ts';
import { deletedOne } from '../../platform/database/delete-one.ts';
import { changedOne } from '../../platform/etag/revision.ts';
import type { Part, PartInput } from './boats.contract.ts';
import { showJob } from './jobs.store.ts';

export async function findPart(tx: Tx, yardId: string, id: string): Promise<Part> {
  const row = await tx.part.findUnique({
    where: { yardId_id: { yardId, id } },
    include: partDetails,
  });
  if (!row) throw new DomainError('record.missing', `There is no part "${id}".`);
  return showPart(row);
}

export async function insertPart(
  tx: Tx,
  yardId: string,
  refitId: string,
  part: PartInput,
): Promise<void> {
  await tx.part.create({ data: partRow(yardId, refitId, part) });
  await saveLayers(tx, yardId, [part]);
  await saveJobs(tx, yardId, [part]);
}

export async function updatePart(
  tx: Tx,
  yardId: string,
  id: string,
  revision: number,
  { name, space, areaM2, edgeM, jointM, layers }: Omit<Part, 'id' | 'jobs' | 'revision'>,
): Promise<void> {
  const data = { name, spaceId: space, areaM2, edgeM, jointM };
  changedOne(await tx.part.updateMany({ where: { yardId, id, revision }, data }));
  await saveLayers(tx, yardId, [{ id, layers }]);
}

/** Refused while it has jobs. */
export async function deletePart(
  tx: Tx,
  yardId: string,
  id: string,
  revision: number,
): Promise<void> {
  await deletedOne(tx.part.deleteMany({ where: { yardId, id, revision } }));
}

export function showPart(row: PartRow): Part {
  const { id, name, spaceId, areaM2, edgeM, jointM, jobs, revision } = row;
  const sizes = { areaM2, edgeM, jointM };
  const layers = row.layers.map(toLayer);
  return { id, name, space: spaceId, ...sizes, layers, jobs: jobs.map(showJob), revision };
}
