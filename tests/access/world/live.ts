import { z } from 'zod';
import type { Subject } from '#access/rule.ts';
import { hashOf, newToken } from '#persistence/access/token.ts';
import type { PrismaClient } from '#persistence/generated/client.ts';
import type { Kept } from './records.ts';
import { spareCount } from './yard-file.ts';

export interface LiveSide {
  readonly yardId: string;
  readonly secret: string;
  readonly foreman: string;
  readonly builder: string;
  /** Members who own the two boats, by the ids of their refits and parts. */
  readonly owners: readonly {
    readonly memberId: string;
    readonly refitId: string;
    readonly partId: string;
  }[];
  /** A task that reports are about. */
  readonly taskId: string;
  /** The published plan. */
  readonly planId: string;
}

/** Adds a picture to a snag, over the API: its file has to be there as well. */
export type AddPhoto = (snagId: string) => Promise<unknown>;

/** Records of live work of every kind, as the owner of the tables writes them: each state by itself. */
export async function addLive(
  owner: PrismaClient,
  side: LiveSide,
  addPhoto: AddPhoto,
): Promise<[Subject, Kept[]][]> {
  const { yardId, secret, foreman, builder, owners, taskId, planId } = side;
  const spares = Array.from({ length: spareCount }, (_, k) => k);
  const snags = owners.flatMap(({ memberId, partId }) =>
    [0, 1, 2].map(() => ({ id: crypto.randomUUID(), of: memberId, partId })),
  );
  await owner.snag.createMany({
    data: snags.map(({ id, partId }) => ({
      yardId,
      id,
      partId,
      kind: 'void',
      words: `Void ${secret}`,
      shownToOwner: true,
      raisedById: builder,
      foundAt: new Date(),
    })),
  });
  const photos: Kept[] = [];
  for (const { memberId } of owners) {
    const snag = snags.find(({ of }) => of === memberId);
    // As many as calls may take away, and one that stays.
    for (let k = 0; k < 12 && snag; k += 1) {
      const { id } = z.object({ id: z.string() }).parse(await addPhoto(snag.id));
      photos.push({ id, of: memberId });
    }
  }
  const changes = owners.flatMap(({ memberId, refitId, partId }) =>
    [0, 1, 2].map(() => ({ id: crypto.randomUUID(), of: memberId, refitId, partId })),
  );
  await owner.changeOrder.createMany({
    data: changes.map(({ id, refitId, partId }) => ({
      yardId,
      id,
      refitId,
      kind: 'size',
      input: { kind: 'size', partId, areaM2: 3 },
      words: `Larger ${secret}`,
      raisedById: foreman,
    })),
  });
  const alarms = spares.map((k) => ({ id: crypto.randomUUID(), key: `opens:${String(k)}` }));
  await owner.alarm.createMany({
    data: alarms.map(({ id, key }) => ({
      yardId,
      id,
      key,
      kind: 'opens',
      dueAt: new Date(),
      audience: [foreman, builder],
      words: `Opens ${secret}`,
      state: 'rung',
      rungAt: new Date(),
    })),
  });
  // What a subscription tells them of.
  await owner.event.create({
    data: {
      yardId,
      kind: 'alarm-rung',
      subject: 'alarm',
      subjectId: alarms[0].id,
      payload: {
        kind: 'opens',
        taskId: null,
        audience: [foreman, builder],
        words: `Opens ${secret}`,
        at: new Date().toISOString(),
      },
    },
  });
  const reports = spares.map(() => ({ id: crypto.randomUUID() }));
  await owner.report.createMany({
    data: reports.map(({ id }) => ({
      yardId,
      id,
      memberId: builder,
      key: id,
      kind: 'start',
      input: { taskId },
      phoneAt: new Date(),
      at: new Date(),
      outcome: 'held',
      note: secret,
    })),
  });
  await owner.candidate.create({ data: { yardId, planId, moved: 1, disturbance: 1 } });
  const makers = [foreman, builder, ...owners.map(({ memberId }) => memberId)];
  const calendars = makers.flatMap((memberId) =>
    spares.map(() => ({ id: crypto.randomUUID(), of: memberId })),
  );
  await owner.calendarLink.createMany({
    data: calendars.map(({ id, of }) => ({
      yardId,
      id,
      memberId: of,
      kind: 'owner',
      name: `Diary ${secret}`,
      tokenHash: hashOf(newToken()),
    })),
  });
  const shared = (all: readonly { readonly id: string }[]): Kept[] =>
    all.map(({ id }) => ({ id, of: null }));
  const own = (all: readonly Kept[]): Kept[] => all.map(({ id, of }) => ({ id, of }));
  return [
    ['snag', own(snags)],
    ['photo', photos],
    ['change', own(changes)],
    ['alarm', shared(alarms)],
    ['report', shared(reports)],
    ['candidate', [{ id: planId, of: null }]],
    ['calendar', own(calendars)],
  ];
}
