import { materialSchema, type Material } from '#planning/yard/materials.ts';
import type { Transaction } from '../client.ts';
import type { MaterialVersion as VersionRow, Prisma } from '../generated/client.ts';
import { asJson, insert, isoOf } from '../rows.ts';

/** What a material said from one change until the next. */
export interface MaterialVersion {
  /** From 1; goes on where the material was deleted and made again. */
  readonly version: number;
  readonly at: string;
  /** The person's id in the yard; null: it came with the yard. */
  readonly by: string | null;
  readonly material: Material;
}

/** Keeps what the materials say now as a further version of each. */
export async function addVersions(
  tx: Transaction,
  yardId: string,
  materials: readonly Material[],
  byMemberId: string | null,
): Promise<void> {
  const groups = await tx.materialVersion.groupBy({
    by: ['materialId'],
    where: { yardId, materialId: { in: materials.map(({ id }) => id) } },
    _max: { version: true },
  });
  const last = new Map(groups.map(({ materialId, _max }) => [materialId, _max.version ?? 0]));
  await insert(
    tx.materialVersion,
    materials.map((material): Prisma.MaterialVersionCreateManyInput => ({
      yardId,
      materialId: material.id,
      version: (last.get(material.id) ?? 0) + 1,
      body: asJson(material),
      byMemberId,
    })),
  );
}

/** As the material was written then; what the shape has gained since is at its default. */
export const toMaterialVersion = (row: VersionRow): MaterialVersion => ({
  version: row.version,
  at: isoOf(row.at),
  by: row.byMemberId,
  material: materialSchema.parse(row.body),
});
