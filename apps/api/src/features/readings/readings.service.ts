import { Injectable } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import { saveReadings, toReading } from '#persistence/yard/observed.ts';
import { wholeMinutesLag } from '#live/life/phone.ts';
import { isoOf } from '#persistence/rows.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database, type Tx } from '../../platform/database/database.ts';
import { appendEvent } from '../../platform/database/events.ts';
import { type Page, pageArgs, type PageRequest, toPage } from '../../platform/paging/page.ts';
import { assertReadings } from '../soundness/observed.service.ts';
import type { Reading, ReadingList, ReadingsFilter, ReadingsInput } from './readings.contract.ts';

/** Ten thousand readings are as many rows of the audit: some two seconds of the database's work, of a machine at rest. */
const patienceMs = 60_000;

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

  /** What windows, alarms and plans rest on is reckoned anew from here on, whichever moments they are of. */
  add(viewer: Viewer, { readings, sentAt, skipKnown }: ReadingsInput): Promise<ReadingList> {
    const lag = wholeMinutesLag(sentAt, new Date());
    const told = readings.map((reading) => ({
      ...reading,
      id: reading.id ?? `reading-${crypto.randomUUID()}`,
      at: isoOf(new Date(Date.parse(reading.at) + lag)),
    }));
    const work = async (tx: Tx): Promise<ReadingList> => {
      const isKnown = skipKnown ? await knownAmong(tx, viewer.yardId, told) : () => false;
      const items = told.filter((reading) => !isKnown(reading));
      if (items.length > 0) await this.addIn(tx, viewer, items);
      return { items, skipped: told.length - items.length };
    };
    return this.database.inYard(viewer, work, { timeout: patienceMs });
  }

  /** The same in the caller's transaction, at moments of the service's clock. */
  async addIn(tx: Tx, viewer: Viewer, readings: readonly Reading[]): Promise<void> {
    const { yardId } = viewer;
    await assertReadings(tx, yardId, readings);
    await saveReadings(tx, yardId, readings);
    for (const [space, count] of perSpace(readings)) {
      await appendEvent(tx, viewer, 'readings-added', 'space', space, { count });
    }
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

/** All that tells two readings apart but their name and what somebody wrote beside. */
const sameness = ({ space, of, at, minutes, celsius, humidity }: Reading): string =>
  JSON.stringify([space, of, Date.parse(at), minutes, celsius, humidity]);

async function knownAmong(
  tx: Tx,
  yardId: string,
  readings: readonly Reading[],
): Promise<(reading: Reading) => boolean> {
  const times = readings.map(({ at }) => Date.parse(at));
  const span = {
    gte: new Date(times.reduce((a, b) => Math.min(a, b))),
    lte: new Date(times.reduce((a, b) => Math.max(a, b))),
  };
  const spaceId = { in: [...new Set(readings.map(({ space }) => space))] };
  const rows = await tx.reading.findMany({ where: { yardId, spaceId, at: span } });
  const known = new Set(rows.map((row) => sameness(toReading(row))));
  return (reading) => known.has(sameness(reading));
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
