import { whoseOf } from '#access/judge.ts';
import type { Rule } from '#access/rule.ts';
import { applyEdits, type Edited } from '#live/edits/apply.ts';
import { effectOf, effectSchema, sameEffect } from '#live/edits/effect.ts';
import { readEdits } from '#live/edits/read-edits.ts';
import { inYard, service, type Transaction } from '#persistence/client.ts';
import type { PrismaClient, Proposal } from '#persistence/generated/client.ts';
import { loadForEdits } from '#persistence/live/edits.ts';
import { lastEventId } from '#persistence/live/yard-state.ts';
import { loadPublished } from '#persistence/plan/published.ts';
import type { PriceJob } from '#persistence/queue/price.ts';
import type { PublishedPlan } from '#planning/compile/work/published.ts';

/** A proposal in hand, with the yard as it stood when it was taken up, and as it would be. */
export interface TakenProposal {
  readonly proposal: Proposal;
  /** The last event that the yard was read with. */
  readonly eventId: bigint;
  readonly without: Edited;
  readonly changed: Edited;
  readonly published: PublishedPlan | null;
}

/** Thrown where there is nothing to plan: what is to be told in place of a price. */
export class NoPrice extends Error {
  readonly why: readonly string[];

  constructor(why: readonly string[]) {
    super(why.join(' '));
    this.why = why;
  }
}

/**
 * Reads a proposal that waits for its price, all of one moment. Null where it does not wait any more.
 * Throws `NoPrice` where whoever asked may not have one by now, or the work is not what it was.
 */
export function takeUp(
  prisma: PrismaClient,
  { yardId, proposalId, askedBy }: PriceJob,
  rule: Pick<Rule, 'may'>,
): Promise<TakenProposal | null> {
  return inYard(
    prisma,
    service(yardId),
    async (tx) => {
      const proposal = await tx.proposal.findUnique({
        where: { yardId_id: { yardId, id: proposalId } },
      });
      if (proposal?.state !== 'pricing') return null;
      await assertMay(tx, yardId, askedBy, rule);
      const without = await loadForEdits(tx, yardId);
      const changed = applyEdits(without.yard, without.workload, readEdits(proposal.edits));
      const told = effectSchema.safeParse(proposal.effect);
      const effect = effectOf(without.workload, changed.workload);
      if (!told.success || !sameEffect(told.data, effect))
        throw new NoPrice([
          'Work that it is about has begun or changed since the price was asked for. Have it priced again.',
        ]);
      const published = await loadPublished(tx, yardId);
      return { proposal, eventId: await lastEventId(tx, yardId), without, changed, published };
    },
    { isolationLevel: 'RepeatableRead' },
  );
}

async function assertMay(
  tx: Transaction,
  yardId: string,
  id: string,
  { may }: Pick<Rule, 'may'>,
): Promise<void> {
  if (typeof may === 'string') return;
  const member = await tx.member.findUnique({
    where: { yardId_id: { yardId, id } },
    select: { name: true, roles: true, accountId: true },
  });
  const mayCome = member !== null && member.accountId !== null;
  if (mayCome && whoseOf(may, member.roles) !== null) return;
  const words = Object.keys(may).join(' or ');
  throw new NoPrice([`${member?.name ?? id} asked for the price and is no ${words} now.`]);
}
