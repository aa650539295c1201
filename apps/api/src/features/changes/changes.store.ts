import { DomainError, fault } from '#kernel/error.ts';
import { changeInputSchema, type ChangeInput } from '#live/change/change-input.ts';
import type { Prisma } from '#persistence/generated/client.ts';
import { isoOf } from '#persistence/rows.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import type { Tx } from '../../platform/database/database.ts';
import { isUuid } from '../../platform/database/uuid.ts';
import { newestArgs, toNewestPage } from '../../platform/paging/newest.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { type Proposal, proposalsOfChanges } from '../proposals/proposals.service.ts';
import {
  type Change,
  type ChangeState,
  changeStateSchema,
  type Party,
  type Wanted,
} from './changes.contract.ts';

const details = {
  refit: { include: { boat: true, parts: { select: { id: true, name: true } } } },
} as const satisfies Prisma.ChangeOrderInclude;
export type ChangeRow = Prisma.ChangeOrderGetPayload<{ include: typeof details }>;

export const inputOf = (row: Pick<ChangeRow, 'input'>): ChangeInput =>
  changeInputSchema.parse(row.input);

function wantedOf(row: ChangeRow): Wanted {
  const input = inputOf(row);
  const none = { areaM2: null, edgeM: null, jointM: null, procedures: [] };
  if (input.kind === 'add-part') {
    const { id, name, areaM2, edgeM, jointM, jobs } = input.part;
    const procedures = jobs.map(({ procedure }) => procedure);
    return { kind: 'add-part', partId: id, part: name, areaM2, edgeM, jointM, procedures };
  }
  const { kind, partId } = input;
  const part = row.refit.parts.find(({ id }) => id === partId)?.name ?? partId;
  if (kind === 'drop-part') return { kind, partId, part, ...none };
  const { areaM2 = null, edgeM = null, jointM = null } = input;
  return { kind, partId, part, ...none, areaM2, edgeM, jointM };
}

/** People of the yard, as far as whoever entered may know them. */
interface People {
  readonly names: ReadonlyMap<string, string>;
  readonly withAccount: ReadonlySet<string>;
}

async function peopleOf(
  tx: Tx,
  { yardId, memberId }: Viewer,
  ids: readonly string[],
): Promise<People> {
  const rows = await tx.member.findMany({
    where: { yardId, id: { in: [...ids] } },
    select: { id: true, name: true, accountId: true },
  });
  return {
    names: new Map(rows.map(({ id, name }) => [id, name])),
    withAccount: new Set([
      memberId,
      ...rows.filter(({ accountId }) => accountId !== null).map(({ id }) => id),
    ]),
  };
}

const partyOf = ({ names }: People, id: string): Party => {
  const name = names.get(id);
  return name === undefined ? { id: null, name: 'The yard' } : { id, name };
};

function show(row: ChangeRow, people: People, proposal: Proposal | null): Change {
  const { refit, decidedById, decidedAt } = row;
  const { boat } = refit;
  return {
    id: row.id,
    boatId: boat.id,
    boat: boat.name,
    refitId: refit.id,
    refit: refit.name,
    wanted: wantedOf(row),
    words: row.words,
    state: changeStateSchema.parse(row.state),
    decides: decidesOf(boat.ownerId, people),
    raisedBy: partyOf(people, row.raisedById),
    decidedBy: decidedById === null ? null : partyOf(people, decidedById),
    decidedAt: decidedAt && isoOf(decidedAt),
    note: row.note,
    proposal,
    createdAt: isoOf(row.createdAt),
    revision: row.revision,
  };
}

const decidesOf = (ownerId: string | null, { withAccount }: People): Change['decides'] =>
  ownerId !== null && withAccount.has(ownerId) ? 'owner' : 'foreman';

async function shown(tx: Tx, viewer: Viewer, rows: readonly ChangeRow[]): Promise<Change[]> {
  const ids = rows.flatMap(({ raisedById, decidedById, refit }) =>
    [raisedById, decidedById, refit.boat.ownerId].filter((id) => id !== null),
  );
  const people = await peopleOf(tx, viewer, ids);
  const proposals = await proposalsOfChanges(
    tx,
    viewer,
    rows.map(({ id }) => id),
  );
  return rows.map((row) => show(row, people, proposals.get(row.id) ?? null));
}

export async function findRow(tx: Tx, yardId: string, id: string): Promise<ChangeRow> {
  const row = isUuid(id)
    ? await tx.changeOrder.findUnique({ where: { yardId_id: { yardId, id } }, include: details })
    : null;
  if (!row) throw new DomainError('record.missing', `There is no change "${id}".`);
  return row;
}

export async function findChange(tx: Tx, viewer: Viewer, id: string): Promise<Change> {
  const [change] = await shown(tx, viewer, [await findRow(tx, viewer.yardId, id)]);
  return change;
}

/** The latest first. */
export async function listChanges(
  tx: Tx,
  viewer: Viewer,
  state: ChangeState | undefined,
  page: PageRequest,
): Promise<Page<Change>> {
  const { where, ...rest } = newestArgs(page);
  const rows = await tx.changeOrder.findMany({
    where: { yardId: viewer.yardId, ...(state === undefined ? {} : { state }), ...where },
    ...rest,
    include: details,
  });
  const changes = await shown(tx, viewer, rows.slice(0, page.first));
  const byId = new Map(changes.map((change) => [change.id, change]));
  const { items, nextCursor } = toNewestPage(rows, page, ({ id }) => byId.get(id));
  return { items: items.filter((change) => change !== undefined), nextCursor };
}

/**
 * The refit that a change is about, among those that whoever entered sees: what is another owner's is
 * answered like what is not there. Throws `yard.reference`.
 */
export async function refitOf(tx: Tx, yardId: string, input: ChangeInput): Promise<string> {
  if (input.kind === 'add-part') {
    const id = input.refitId;
    const refit = await tx.refit.findUnique({ where: { yardId_id: { yardId, id } } });
    if (refit) return refit.id;
    throw noSuch('refit', 'refitId', id);
  }
  const id = input.partId;
  const part = await tx.part.findUnique({ where: { yardId_id: { yardId, id } } });
  if (part) return part.refitId;
  throw noSuch('part', 'partId', id);
}

function noSuch(what: string, key: string, value: string): DomainError {
  const message = `there is no ${what} "${value}"`;
  const path = `change.${key}`;
  const faults = [fault('yard.reference', path, message, { value })];
  return new DomainError('yard.reference', `${path}: ${message}`, { faults });
}

/** Of one refit, so many may wait for a price or a word: each is planned twice to be priced. */
const mostOpen = 20;

/**
 * Another change of the refit may be asked for; of two at once the second sees the first. Throws
 * `change.state`.
 */
export async function assertFew(tx: Tx, yardId: string, refitId: string): Promise<void> {
  await tx.$queryRaw`
    SELECT 1 FROM refit WHERE yard_id = ${yardId} AND id = ${refitId} FOR NO KEY UPDATE`;
  const open = await tx.changeOrder.count({
    where: { yardId, refitId, state: { in: ['asked', 'priced'] } },
  });
  if (open < mostOpen) return;
  throw new DomainError(
    'change.state',
    `${String(open)} changes of this refit are open, and no more than ${String(mostOpen)} may be.`,
    { cure: 'Decide, decline or withdraw some of them, then ask again.' },
  );
}
