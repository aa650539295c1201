import { DomainError } from '#kernel/error.ts';
import { addVersions } from '#persistence/yard/material-versions.ts';
import {
  materialDetails,
  materialRow,
  saveCureTables,
  saveMaterials,
  toMaterial,
} from '#persistence/yard/materials.ts';
import type { Material as MaterialInput } from '#planning/yard/materials.ts';
import type { Tx } from '../../platform/database/database.ts';
import { deletedOne } from '../../platform/database/delete-one.ts';
import { changedOne } from '../../platform/etag/revision.ts';
import { type Page, pageArgs, type PageRequest, toPage } from '../../platform/paging/page.ts';
import type { Material } from './materials.contract.ts';

export async function listMaterials(
  tx: Tx,
  yardId: string,
  page: PageRequest,
): Promise<Page<Material>> {
  const { where, ...rest } = pageArgs(page);
  const rows = await tx.material.findMany({
    where: { yardId, ...where },
    ...rest,
    include: materialDetails,
  });
  return toPage(rows, page, (row) => ({ ...toMaterial(row), revision: row.revision }));
}

export async function findMaterial(tx: Tx, yardId: string, id: string): Promise<Material> {
  const row = await tx.material.findUnique({
    where: { yardId_id: { yardId, id } },
    include: materialDetails,
  });
  if (!row) throw new DomainError('record.missing', `There is no material "${id}".`);
  return { ...toMaterial(row), revision: row.revision };
}

export async function insertMaterial(
  tx: Tx,
  yardId: string,
  material: MaterialInput,
  byMemberId: string,
): Promise<void> {
  await saveMaterials(tx, yardId, [material], byMemberId);
}

export async function updateMaterial(
  tx: Tx,
  yardId: string,
  revision: number,
  material: MaterialInput,
  byMemberId: string,
): Promise<void> {
  const where = { yardId, id: material.id, revision };
  changedOne(await tx.material.updateMany({ where, data: materialRow(yardId, material) }));
  await saveCureTables(tx, yardId, material.id, material.milestones);
  await addVersions(tx, yardId, [material], byMemberId);
}

export async function deleteMaterial(
  tx: Tx,
  yardId: string,
  id: string,
  revision: number,
): Promise<void> {
  await deletedOne(tx.material.deleteMany({ where: { yardId, id, revision } }));
}
