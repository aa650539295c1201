import { defects, snagKindSchema } from '#live/rework/defects.ts';
import { DomainError } from '#kernel/error.ts';
import type { Prisma } from '#persistence/generated/client.ts';
import { isoOf } from '#persistence/rows.ts';
import { type Viewer, seesOwnBoatsOnly } from '../../platform/access/viewer.ts';
import type { Tx } from '../../platform/database/database.ts';
import { isUuid } from '../../platform/database/uuid.ts';
import { newestArgs, toNewestPage } from '../../platform/paging/newest.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import type { Proposal } from '../proposals/proposals.service.ts';
import { type Snag, type SnagPhoto, type SnagsFilter, snagStateSchema } from './snags.contract.ts';
import { mediaTypes } from './photos/picture.ts';

const details = {
  photos: { orderBy: [{ createdAt: 'asc' }, { id: 'asc' }] },
  reworks: { orderBy: { madeAt: 'asc' } },
} as const satisfies Prisma.SnagInclude;

export type SnagRow = Prisma.SnagGetPayload<{ include: typeof details }>;
export type PhotoRow = Prisma.SnagPhotoGetPayload<object>;

/** As whoever entered sees it. Throws record.missing. */
export async function findSnag(tx: Tx, yardId: string, id: string): Promise<SnagRow> {
  const row = isUuid(id)
    ? await tx.snag.findUnique({ where: { yardId_id: { yardId, id } }, include: details })
    : null;
  if (!row) throw new DomainError('record.missing', `There is no snag "${id}".`);
  return row;
}

/** Keeps others from deciding about it until this transaction ends. */
export async function lockSnag(tx: Tx, yardId: string, id: string): Promise<SnagRow> {
  if (isUuid(id))
    await tx.$queryRaw`SELECT 1 FROM snag WHERE yard_id = ${yardId} AND id = ${id}::uuid FOR UPDATE`;
  return findSnag(tx, yardId, id);
}

export async function listSnags(
  tx: Tx,
  viewer: Viewer,
  { partId, refitId, state }: SnagsFilter,
  page: PageRequest,
): Promise<Page<Snag>> {
  const { yardId } = viewer;
  const { where, ...rest } = newestArgs(page);
  const wanted: Prisma.SnagWhereInput = {
    ...(partId === undefined ? {} : { partId }),
    ...(refitId === undefined ? {} : { part: { refitId } }),
    ...(state === undefined ? {} : { state }),
  };
  const rows = await tx.snag.findMany({
    where: { yardId, ...wanted, ...where },
    ...rest,
    include: details,
  });
  const about = await around(tx, yardId, rows);
  return toNewestPage(rows, page, (row) => show(row, viewer, about, null));
}

/** One as it is shown; the proposal is the foreman's to see. */
export async function showSnag(
  tx: Tx,
  viewer: Viewer,
  row: SnagRow,
  proposal: Proposal | null,
): Promise<Snag> {
  return show(row, viewer, await around(tx, viewer.yardId, [row]), proposal);
}

interface About {
  readonly parts: ReadonlyMap<string, { readonly name: string; readonly refitId: string }>;
  /** Tasks of each rework. */
  readonly tasks: ReadonlyMap<string, readonly string[]>;
}

async function around(tx: Tx, yardId: string, rows: readonly SnagRow[]): Promise<About> {
  const parts = await tx.part.findMany({
    where: { yardId, id: { in: rows.map(({ partId }) => partId) } },
    select: { id: true, name: true, refitId: true },
  });
  const reworkIds = rows.flatMap(({ reworks }) => reworks.map(({ id }) => id));
  const tasks =
    reworkIds.length === 0
      ? []
      : await tx.task.findMany({
          where: { yardId, reworkId: { in: reworkIds } },
          orderBy: { position: 'asc' },
          select: { id: true, reworkId: true },
        });
  const byRework = Map.groupBy(tasks, ({ reworkId }) => reworkId ?? '');
  return {
    parts: new Map(parts.map((part) => [part.id, part])),
    tasks: new Map([...byRework].map(([id, list]) => [id, list.map((task) => task.id)])),
  };
}

function show(row: SnagRow, viewer: Viewer, about: About, proposal: Proposal | null): Snag {
  const kind = snagKindSchema.parse(row.kind);
  const part = about.parts.get(row.partId);
  const isOwner = seesOwnBoatsOnly(viewer);
  return {
    id: row.id,
    partId: row.partId,
    partName: part?.name ?? row.partId,
    refitId: part?.refitId ?? '',
    taskId: row.taskId,
    kind,
    kindName: defects[kind].name,
    words: row.words,
    areaM2: row.areaM2,
    state: snagStateSchema.parse(row.state),
    note: row.note,
    shownToOwner: row.shownToOwner,
    raisedBy: isOwner ? null : row.raisedById,
    foundAt: row.foundAt.toISOString(),
    photos: row.photos.map((photo) => showPhoto(photo, viewer)),
    proposal,
    reworks: row.reworks.map(({ id, words, madeAt }) => ({
      id,
      words,
      madeAt: isoOf(madeAt),
      taskIds: [...(about.tasks.get(id) ?? [])],
    })),
    revision: row.revision,
  };
}

export function showPhoto(row: PhotoRow, viewer: Viewer): SnagPhoto {
  const { id, bytes, width, height, addedById, createdAt } = row;
  return {
    id,
    mediaType: mediaTypes.find((type) => type === row.mediaType) ?? 'image/jpeg',
    bytes,
    width,
    height,
    addedBy: seesOwnBoatsOnly(viewer) ? null : addedById,
    addedAt: isoOf(createdAt),
  };
}
