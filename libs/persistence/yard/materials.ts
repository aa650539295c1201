import { materialSchema, type Material } from '#planning/yard/materials.ts';
import type { Transaction } from '../client.ts';
import type { Prisma } from '../generated/client.ts';
import { inOrder, insert, nothingLeft } from '../rows.ts';

export async function saveMaterials(
  tx: Transaction,
  yardId: string,
  materials: readonly Material[],
): Promise<void> {
  await insert(
    tx.material,
    materials.map((material) => materialRow(yardId, material)),
  );
  for (const { id, milestones } of materials) await saveCureTables(tx, yardId, id, milestones);
}

/** The columns of the material itself; its cure tables are rows of their own. */
export function materialRow(
  yardId: string,
  {
    id,
    name,
    resinSystem,
    minimumC,
    maximumC,
    belowMinimum,
    cautions,
    milestones: _m,
    ...rest
  }: Material,
): Prisma.MaterialCreateManyInput {
  nothingLeft(rest);
  return { yardId, id, name, resinSystem, minimumC, maximumC, belowMinimum, cautions };
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
    tables.map(({ milestone, rows, source, ...rest }): Prisma.CureTableCreateManyInput => {
      nothingLeft(rest);
      const celsius = rows.map((row) => row.celsius);
      const minutes = rows.map((row) => row.minutes);
      return { yardId, materialId, milestone, celsius, minutes, source };
    }),
  );
}

export const materialDetails = { milestones: inOrder } as const satisfies Prisma.MaterialInclude;

export type MaterialRow = Prisma.MaterialGetPayload<{ include: typeof materialDetails }>;

export const toMaterial = (row: MaterialRow): Material =>
  materialSchema.parse({
    id: row.id,
    name: row.name,
    resinSystem: row.resinSystem,
    minimumC: row.minimumC,
    maximumC: row.maximumC,
    belowMinimum: row.belowMinimum,
    milestones: row.milestones.map(({ milestone, celsius, minutes, source }) => ({
      milestone,
      rows: celsius.map((at, index) => ({ celsius: at, minutes: minutes[index] })),
      source,
    })),
    cautions: row.cautions,
  } satisfies Record<keyof Material, unknown>);

export async function loadMaterials(tx: Transaction, yardId: string): Promise<Material[]> {
  const rows = await tx.material.findMany({
    where: { yardId },
    ...inOrder,
    include: materialDetails,
  });
  return rows.map(toMaterial);
}
