import { Injectable } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import { saveReadings, toReading } from '#persistence/yard/observed.ts';
import { utcOf } from '#persistence/rows.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database, type Tx } from '../../platform/database/database.ts';
import { appendEvent } from '../../platform/database/events.ts';
import { type Page, pageArgs, type PageRequest, toPage } from '../../platform/paging/page.ts';
import { assertReadings } from '../soundness/observed.service.ts';
import type { Reading, ReadingList, ReadingsFilter, ReadingsInput } from './readings.contract.ts';

/** What instruments said of spaces. Readings are added and taken away, and never changed. */
@Injectable()
export class ReadingsService {
  constructor(private readonly database: Database) {}

  list(viewer: Viewer, filter: ReadingsFilter, page: PageRequest): Promise<Page<Reading>> {
    const { space, from, until } = filter;
    const { where, ...rest } = pageArgs(page);
    const at = {
      ...(from === undefined ? {} : { gte: new Date(from) }),
      ...(until === undefined ? {} : { lt: new Date(until) }),
    };
    return this.database.inYard(viewer, async (tx) => {
      const rows = await tx.reading.findMany({
        where: {
          yardId: viewer.yardId,
          ...(space === undefined ? {} : { spaceId: space }),
          at,
          ...where,
        },
        ...rest,
      });
      return toPage(rows, page, toReading);
    });
  }

  get(viewer: Viewer, id: string): Promise<Reading> {
    return this.database.inYard(viewer, (tx) => find(tx, viewer.yardId, id));
  }

  add(viewer: Viewer, input: ReadingsInput): Promise<ReadingList> {
    const { yardId } = viewer;
    const readings = input.readings.map((reading) => ({
      ...reading,
      id: reading.id ?? `reading-${crypto.randomUUID()}`,
    }));
    return this.database.inYard(viewer, async (tx) => {
      await assertReadings(tx, yardId, readings);
      await saveReadings(tx, yardId, readings);
      for (const [space, count] of perSpace(readings)) {
        await appendEvent(tx, viewer, 'readings-added', 'space', space, { count });
      }
      return { items: readings.map((reading) => ({ ...reading, at: utcOf(reading.at) })) };
    });
  }

  /** Returns what was taken away. */
  remove(viewer: Viewer, id: string): Promise<Reading> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      const reading = await find(tx, yardId, id);
      await tx.reading.deleteMany({ where: { yardId, id } });
      await appendEvent(tx, viewer, 'reading-removed', 'space', reading.space, { reading: id });
      return reading;
    });
  }
}

function perSpace(readings: readonly Reading[]): ReadonlyMap<string, number> {
  const counts = new Map<string, number>();
  for (const { space } of readings) counts.set(space, (counts.get(space) ?? 0) + 1);
  return counts;
}

async function find(tx: Tx, yardId: string, id: string): Promise<Reading> {
  const row = await tx.reading.findUnique({ where: { yardId_id: { yardId, id } } });
  if (!row) throw new DomainError('record.missing', `There is no reading "${id}".`);
  return toReading(row);
}
