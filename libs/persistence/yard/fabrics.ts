import { fabricSchema, type YardFabric } from '#planning/yard/materials.ts';
import type { Transaction } from '../client.ts';
import type { Fabric as FabricRow, Prisma } from '../generated/client.ts';
import { inOrder, insert, nothingLeft } from '../rows.ts';

export function fabricRow(
  yardId: string,
  { id, name, gramsPerM2, resinRatio, binder, source, ...rest }: YardFabric,
): Prisma.FabricCreateManyInput {
  nothingLeft(rest);
  return { yardId, id, name, gramsPerM2, resinRatio, binder, source };
}

export const toFabric = ({ id, name, gramsPerM2, resinRatio, binder, source }: FabricRow) =>
  fabricSchema.parse({ id, name, gramsPerM2, resinRatio, binder, source } satisfies Record<
    keyof YardFabric,
    unknown
  >);

export async function saveFabrics(
  tx: Transaction,
  yardId: string,
  fabrics: readonly YardFabric[],
): Promise<void> {
  await insert(
    tx.fabric,
    fabrics.map((fabric) => fabricRow(yardId, fabric)),
  );
}

export async function loadFabrics(tx: Transaction, yardId: string): Promise<YardFabric[]> {
  const rows = await tx.fabric.findMany({ where: { yardId }, ...inOrder });
  return rows.map(toFabric);
}
