import { z } from 'zod';
import { readEdits } from '#live/edits/read-edits.ts';
import type { WorkEdits } from '#live/edits/edits.ts';
import { priceWords } from '#live/price/price-words.ts';
import { priceSchema } from '#live/price/price.ts';
import type { Proposal as ProposalRow } from '#persistence/generated/client.ts';
import { loadOwnProposals, type OwnProposal } from '#persistence/live/own-proposals.ts';
import { isoOf } from '#persistence/rows.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { asService } from '../../platform/database/as-service.ts';
import type { Tx } from '../../platform/database/database.ts';
import { type Proposal, proposalStateSchema } from './proposals.contract.ts';
import { staleOf } from './staleness.ts';

/** What is proposed for: exactly one of the two. */
export type Cause = { readonly snagId: string } | { readonly changeOrderId: string };

/** In these a proposal waits for somebody's word. */
const decidable = ['priced', 'unplannable'] as const;
/** In these for that, or for its price. */
const open = ['pricing', ...decidable] as const;

const lines = z.array(z.string());

type Shown = Omit<OwnProposal, 'changeOrderId'> & { readonly why: unknown };

function show(row: Shown, zone: string, outdated: boolean): Proposal {
  const price = row.price === null ? null : priceSchema.parse(row.price);
  return {
    id: row.id,
    state: proposalStateSchema.parse(row.state),
    meaning: lines.parse(row.meaning),
    price,
    words: price === null ? [] : priceWords(price, zone),
    why: lines.parse(row.why),
    createdAt: isoOf(row.createdAt),
    pricedAt: row.pricedAt && isoOf(row.pricedAt),
    outdated,
  };
}

const ofOwner = (row: OwnProposal): Shown => ({
  ...row,
  why:
    row.state === 'unplannable'
      ? ['The yard cannot say when it would be done: it has to look at its plan first.']
      : [],
});

async function zoneOf(tx: Tx, yardId: string): Promise<string> {
  const { timeZone } = await tx.yard.findUniqueOrThrow({ where: { id: yardId } });
  return timeZone;
}

/** Of those that wait for a yes, to which nobody can say it, for the work is not what they were priced with. */
async function outdatedOf(
  tx: Tx,
  yardId: string,
  where: Cause | { readonly changeOrderId: { readonly in: string[] } },
): Promise<ReadonlySet<string>> {
  const waiting = await tx.proposal.findMany({
    where: { yardId, state: { in: [...decidable] }, ...where },
    select: { id: true, readEventId: true, edits: true, effect: true },
  });
  return new Set((await staleOf(tx, yardId, waiting)).keys());
}

/** The latest of each change, as whoever entered sees it: an owner the own boats of it alone, and no money. */
export async function proposalsOfChanges(
  tx: Tx,
  viewer: Viewer,
  changeIds: readonly string[],
): Promise<ReadonlyMap<string, Proposal>> {
  const { yardId, sees } = viewer;
  const zone = await zoneOf(tx, yardId);
  const rows =
    sees === 'all'
      ? await tx.proposal.findMany({
          where: { yardId, changeOrderId: { in: [...changeIds] } },
          orderBy: [{ createdAt: 'desc' }, { id: 'desc' }],
        })
      : (await loadOwnProposals(tx)).map((row) => ({
          ...ofOwner(row),
          changeOrderId: row.changeOrderId,
        }));
  // An owner reads neither the log nor the row of a price.
  const outdated = await asService(tx, viewer, () =>
    outdatedOf(tx, yardId, { changeOrderId: { in: [...changeIds] } }),
  );
  const found = new Map<string, Proposal>();
  for (const row of rows) {
    const { changeOrderId } = row;
    if (changeOrderId === null || found.has(changeOrderId)) continue;
    found.set(changeOrderId, show(row, zone, outdated.has(row.id)));
  }
  return found;
}

export async function latestRow(tx: Tx, yardId: string, cause: Cause): Promise<ProposalRow | null> {
  return tx.proposal.findFirst({
    where: { yardId, ...cause },
    orderBy: [{ createdAt: 'desc' }, { id: 'desc' }],
  });
}

export async function latestOf(tx: Tx, yardId: string, cause: Cause): Promise<Proposal | null> {
  const row = await latestRow(tx, yardId, cause);
  if (row === null) return null;
  const outdated = await outdatedOf(tx, yardId, cause);
  return show(row, await zoneOf(tx, yardId), outdated.has(row.id));
}

/** Ends those that wait. */
export async function closeOpen(
  tx: Tx,
  yardId: string,
  cause: Cause,
  state: 'declined' | 'superseded',
): Promise<void> {
  await tx.proposal.updateMany({
    where: { yardId, ...cause, state: { in: [...open] } },
    data: { state },
  });
}

export const editsOf = (row: ProposalRow): WorkEdits => readEdits(row.edits);
