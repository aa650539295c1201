import type { Barrier } from '#planning/yard/spaces.ts';
import type { Transaction } from '../client.ts';
import type { Prisma } from '../generated/client.ts';
import { inOrder, insert, nothingLeft } from '../rows.ts';

/** The columns of the barrier itself; the ways that it bars are rows of their own. */
export function barrierRow(
  yardId: string,
  { id, name, closed, blocks: _b, ...rest }: Barrier,
): Prisma.BarrierCreateManyInput {
  nothingLeft(rest);
  return { yardId, id, name, closed };
}

export async function saveBarriers(
  tx: Transaction,
  yardId: string,
  barriers: readonly Barrier[],
): Promise<void> {
  await insert(
    tx.barrier,
    barriers.map((barrier) => barrierRow(yardId, barrier)),
  );
  for (const barrier of barriers) await saveBlocks(tx, yardId, barrier);
}

/** What the barrier bars, in place of what it barred. */
export async function saveBlocks(
  tx: Transaction,
  yardId: string,
  { id, blocks }: Pick<Barrier, 'id' | 'blocks'>,
): Promise<void> {
  await tx.barrierBlock.deleteMany({ where: { yardId, barrierId: id } });
  await insert(
    tx.barrierBlock,
    blocks.map(({ from, to, ...rest }): Prisma.BarrierBlockCreateManyInput => {
      nothingLeft(rest);
      return { yardId, barrierId: id, fromSpaceId: from, toSpaceId: to };
    }),
  );
}

export const barrierDetails = { blocks: inOrder } as const satisfies Prisma.BarrierInclude;

export type BarrierRow = Prisma.BarrierGetPayload<{ include: typeof barrierDetails }>;

export const toBarrier = ({ id, name, closed, blocks }: BarrierRow): Barrier => ({
  id,
  name,
  closed,
  blocks: blocks.map(({ fromSpaceId, toSpaceId }) => ({ from: fromSpaceId, to: toSpaceId })),
});

export async function loadBarriers(tx: Transaction, yardId: string): Promise<Barrier[]> {
  const rows = await tx.barrier.findMany({
    where: { yardId },
    ...inOrder,
    include: barrierDetails,
  });
  return rows.map(toBarrier);
}
