import { layerSchema, type Layer, type Part } from '#planning/yard/boats.ts';
import type { Transaction } from '../client.ts';
import type { PartLayer as LayerRow, Prisma } from '../generated/client.ts';
import { insert, isoOf, nothingLeft } from '../rows.ts';

/** What parts are made of, in place of what was known of them. */
export async function saveLayers(
  tx: Transaction,
  yardId: string,
  parts: readonly Pick<Part, 'id' | 'layers'>[],
): Promise<void> {
  await tx.partLayer.deleteMany({ where: { yardId, partId: { in: parts.map(({ id }) => id) } } });
  await insert(
    tx.partLayer,
    parts.flatMap(({ id, layers }) =>
      layers.map(
        ({
          base,
          material,
          surface,
          waxed,
          laidAt,
          mm,
          ...rest
        }): Prisma.PartLayerCreateManyInput => {
          nothingLeft(rest);
          return {
            yardId,
            partId: id,
            base,
            materialId: material,
            surface,
            waxed,
            laidAt: laidAt === null ? null : new Date(laidAt),
            mm,
          };
        },
      ),
    ),
  );
}

export const toLayer = (row: LayerRow): Layer =>
  layerSchema.parse({
    base: row.base,
    material: row.materialId,
    surface: row.surface,
    waxed: row.waxed,
    laidAt: row.laidAt === null ? null : isoOf(row.laidAt),
    mm: row.mm,
  } satisfies Record<keyof Layer, unknown>);
