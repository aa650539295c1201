import { materialSchema, type Material } from '#planning/yard/materials.ts';
import type { Transaction } from '../client.ts';
import type { Prisma } from '../generated/client.ts';
import { asJson, asJsonOrNull, inOrder, insert, nothingLeft } from '../rows.ts';
import { addVersions } from './material-versions.ts';

export async function saveMaterials(
  tx: Transaction,
  yardId: string,
  materials: readonly Material[],
  byMemberId: string | null,
): Promise<void> {
  await insert(
    tx.material,
    materials.map((material) => materialRow(yardId, material)),
  );
  for (const { id, milestones } of materials) await saveCureTables(tx, yardId, id, milestones);
  await addVersions(tx, yardId, materials, byMemberId);
}

/**
 * The columns of the material itself; its cure tables are rows of their own. Whatever has no
 * column is kept in its sheet, without the nulls, which the shape puts back.
 */
export function materialRow(
  yardId: string,
  {
    id,
    name,
    classId,
    resinSystem,
    minimumC,
    maximumC,
    belowMinimum,
    keptIn,
    keptLagHours,
    cautions,
    milestones: _m,
    ...sheet
  }: Material,
): Prisma.MaterialCreateManyInput {
  const given = Object.entries(sheet).filter(([, value]) => value !== null);
  return {
    yardId,
    id,
    name,
    classId,
    resinSystem,
    minimumC,
    maximumC,
    belowMinimum,
    sheet: asJson(Object.fromEntries(given)),
    keptInId: keptIn,
    keptLagHours,
    cautions,
  };
}

/** Cure tables of a material, in place of those it had. */
export async function saveCureTables(
  tx: Transaction,
  yardId: string,
  materialId: string,
  tables: Material['milestones'],
): Promise<void> {
  await tx.cureTable.deleteMany({ where: { yardId, materialId } });
  await insert(
    tx.cureTable,
    tables.map(
      ({
        milestone,
        rows,
        conversion,
        source,
        trust,
        spread,
        ...rest
      }): Prisma.CureTableCreateManyInput => {
        nothingLeft(rest);
        return {
          yardId,
          materialId,
          milestone,
          celsius: rows.map((row) => row.celsius),
          minutes: rows.map((row) => row.minutes),
          conversion: asJsonOrNull(conversion),
          source,
          trust,
          spread,
        };
      },
    ),
  );
}

export const materialDetails = { milestones: inOrder } as const satisfies Prisma.MaterialInclude;

export type MaterialRow = Prisma.MaterialGetPayload<{ include: typeof materialDetails }>;

export const toMaterial = (row: MaterialRow): Material =>
  materialSchema.parse({
    ...(row.sheet as Prisma.JsonObject),
    id: row.id,
    name: row.name,
    classId: row.classId,
    resinSystem: row.resinSystem,
    minimumC: row.minimumC,
    maximumC: row.maximumC,
    belowMinimum: row.belowMinimum,
    milestones: row.milestones.map(
      ({ milestone, celsius, minutes, conversion, source, trust, spread }) => ({
        milestone,
        rows: celsius.map((at, index) => ({ celsius: at, minutes: minutes[index] })),
        conversion,
        source,
        trust,
        spread,
      }),
    ),
    keptIn: row.keptInId,
    keptLagHours: row.keptLagHours,
    cautions: row.cautions,
  });

export async function loadMaterials(tx: Transaction, yardId: string): Promise<Material[]> {
  const rows = await tx.material.findMany({
    where: { yardId },
    ...inOrder,
    include: materialDetails,
  });
  return rows.map(toMaterial);
}
