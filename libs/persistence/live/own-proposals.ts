import type { Transaction } from '../client.ts';

/** A proposal as the owner of the boat reads it: the price without other boats and money. */
export interface OwnProposal {
  readonly id: string;
  readonly changeOrderId: string;
  readonly state: string;
  readonly meaning: unknown;
  readonly price: unknown;
  readonly createdAt: Date;
  readonly pricedAt: Date | null;
}

/** Of changes of the boats of whoever entered the yard, the latest first. */
export function loadOwnProposals(tx: Transaction): Promise<OwnProposal[]> {
  return tx.$queryRaw<OwnProposal[]>`
    SELECT id, change_order_id AS "changeOrderId", state, meaning, price,
           created_at AS "createdAt", priced_at AS "pricedAt"
    FROM own_proposals() ORDER BY created_at DESC, id DESC`;
}
