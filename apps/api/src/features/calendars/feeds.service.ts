import { createHash } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import type { KeyedEntry } from '#live/calendar/entry.ts';
import { feedText } from '#live/calendar/feed.ts';
import { followed } from '#live/calendar/follow.ts';
import { ownerEntries } from '#live/calendar/owner-entries.ts';
import { builderEntries, spaceEntries } from '#live/calendar/work-entries.ts';
import type { WorkGround } from '#live/calendar/work-ground.ts';
import { DomainError } from '#kernel/error.ts';
import { calendarOf, type CalendarReader } from '#persistence/access/lookups.ts';
import { hashOf } from '#persistence/access/token.ts';
import { enter, service } from '#persistence/client.ts';
import { standing } from '#planning/decode/ready/standing.ts';
import { inTheirSpaces } from '#planning/workload/in-space.ts';
import { seesOf } from '../../platform/access/viewer.ts';
import { Database, type Tx } from '../../platform/database/database.ts';
import { YardStates } from '../../platform/database/yard-states.ts';
import { calendarKind, type CalendarKind } from './calendars.contract.ts';
import { holdLink, loadItems, ownGround, saveItems, zoneOf } from './feed.store.ts';
import { lacksRole } from './may-read.ts';
import { uidOf } from './uid.ts';

/** What ended longer ago is left out: a calendar is of what comes, and of what somebody may ask about. */
const daysBack = 60;
const dayMs = 24 * 60 * 60 * 1000;

/** A feed as it goes out. */
export interface Read {
  readonly text: string;
  /** Strong: equal texts, octet by octet, have equal tags. */
  readonly etag: string;
  readonly changedAt: Date;
  readonly fileName: string;
}

interface Said {
  readonly zone: string;
  readonly entries: readonly KeyedEntry[];
}

/** Reads feeds by their secret: what its person may read, and not more. */
@Injectable()
export class FeedsService {
  constructor(
    private readonly database: Database,
    private readonly states: YardStates,
  ) {}

  /** Throws record.missing alike where there is no such link, it was revoked, or may not be read any more. */
  async read(secret: string): Promise<Read> {
    const reader = await this.database.lookUp((db) => calendarOf(db, hashOf(secret)));
    const kind = reader && calendarKind.parse(reader.kind);
    if (!reader || !kind || lacksRole(kind, reader.roles) !== null) throw missing();
    const { yardId, accountId, linkId } = reader;
    const now = new Date();
    // Somebody who is a builder as well has an owner's calendar of the own boats all the same.
    const sees = kind === 'owner' ? 'own' : seesOf(reader.roles);
    return this.database.inYard({ yardId, accountId, sees }, async (tx) => {
      const link = await holdLink(tx, yardId, linkId);
      if (!link) throw missing();
      const { zone, entries } = await this.#say(tx, reader, kind, now);
      // What was said is the service's to remember: an owner can write nothing of the yard.
      await enter(tx, service(yardId));
      const { shown, changed } = followed({
        uidOf: (key) => uidOf(linkId, key),
        before: await loadItems(tx, yardId, linkId),
        entries,
        since: new Date(now.getTime() - daysBack * dayMs).toISOString(),
        now: now.toISOString(),
        zone,
      });
      await saveItems(tx, yardId, linkId, changed);
      const madeAt = link.createdAt.toISOString();
      const text = feedText({
        id: linkId,
        name: link.name,
        description: `${link.yard}. Times follow the published plan and what is reported of the work.`,
        zone,
        items: shown,
        madeAt,
      });
      const last = [madeAt, ...shown.map(({ changedAt }) => changedAt)].reduce((a, b) =>
        a > b ? a : b,
      );
      return {
        text,
        etag: `"${createHash('sha256').update(text).digest('base64url')}"`,
        changedAt: new Date(last),
        fileName: `${kind}-${linkId}.ics`,
      };
    });
  }

  async #say(tx: Tx, reader: CalendarReader, kind: CalendarKind, now: Date): Promise<Said> {
    const { yardId, memberId, spaceId } = reader;
    if (kind === 'owner') {
      const ground = await ownGround(tx, yardId, memberId);
      return { zone: ground.zone, entries: ownerEntries(ground) };
    }
    const ground = await this.#work(tx, yardId, now);
    const entries =
      spaceId === null ? builderEntries(ground, memberId) : spaceEntries(ground, spaceId);
    return { zone: await zoneOf(tx, yardId), entries };
  }

  async #work(tx: Tx, yardId: string, now: Date): Promise<WorkGround> {
    const state = await this.states.at(tx, yardId);
    const { yard, sheet, lives } = state;
    const workload = inTheirSpaces(yard, state.workload);
    const windows = standing({ ...state, now: now.toISOString() }).windows();
    return { yard, workload, sheet, lives, windows };
  }
}

const missing = (): DomainError =>
  new DomainError('record.missing', 'There is no such calendar.', {
    cure: 'Ask for a new address in the yard.',
  });
