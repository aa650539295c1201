import type { Price } from '#live/price/price.ts';
import { inYard, service } from '#persistence/client.ts';
import type { PrismaClient } from '#persistence/generated/client.ts';
import type { PriceJob } from '#persistence/queue/price.ts';
import { asJson } from '#persistence/rows.ts';

export type Priced =
  { readonly price: Price; readonly eventId: bigint } | { readonly why: readonly string[] };

/** Writes the price down, or why there is none, and tells it. False where the proposal does not wait for one any more. */
export function settle(
  prisma: PrismaClient,
  { yardId, proposalId }: PriceJob,
  priced: Priced,
): Promise<boolean> {
  const isPriced = 'price' in priced;
  const state = isPriced ? 'priced' : 'unplannable';
  return inYard(prisma, service(yardId), async (tx) => {
    // The change first, as whoever has it priced again or withdraws it does.
    await tx.$queryRaw`
      SELECT 1 FROM change_order WHERE yard_id = ${yardId} AND id = (
        SELECT change_order_id FROM proposal WHERE yard_id = ${yardId} AND id = ${proposalId}::uuid)
      FOR UPDATE`;
    const ended = await tx.proposal.updateManyAndReturn({
      where: { yardId, id: proposalId, state: 'pricing' },
      data: isPriced
        ? { state, price: asJson(priced.price), readEventId: priced.eventId, pricedAt: new Date() }
        : { state, why: [...priced.why] },
    });
    const row = ended.at(0);
    if (row === undefined) return false;
    const { changeOrderId, snagId } = row;
    if (isPriced && changeOrderId !== null)
      await tx.changeOrder.updateMany({
        where: { yardId, id: changeOrderId, state: 'asked' },
        data: { state: 'priced' },
      });
    await tx.event.create({
      data: {
        yardId,
        byMemberId: null,
        kind: 'proposal-priced',
        subject: changeOrderId === null ? 'snag' : 'change',
        subjectId: changeOrderId ?? snagId ?? proposalId,
        payload: { proposalId, state },
      },
    });
    return true;
  });
}
