import { Injectable } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database } from '../../platform/database/database.ts';
import { appendEvent } from '../../platform/database/events.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { leavable } from '../../platform/streams/leavable.ts';
import { EventsService } from '../events/events.service.ts';
import type { Alarm, AlarmShown, RungAlarm } from './alarms.contract.ts';
import {
  findAlarm,
  listAlarms,
  markAcknowledged,
  markShown,
  unseenAlarms,
} from './alarms.store.ts';
import { rungFor } from './rung.ts';

@Injectable()
export class AlarmsService {
  constructor(
    private readonly database: Database,
    private readonly events: EventsService,
  ) {}

  list(viewer: Viewer, all: boolean, page: PageRequest): Promise<Page<Alarm>> {
    if (all && !viewer.roles.includes('foreman')) {
      throw new DomainError('access.role', 'The foreman reads everybody’s alarms.', {
        cure: 'Leave out `all`.',
      });
    }
    return this.database.inYard(viewer, (tx) => listAlarms(tx, viewer, all, page));
  }

  /**
   * The viewer's alarms as they ring: after the event `after`, or what of the last day they were
   * not shown, and then from now on. None is missed in between; one may come again.
   */
  async follow(
    viewer: Viewer,
    after: bigint | null,
  ): Promise<AsyncIterableIterator<RungAlarm, void>> {
    const latest = after ?? (await this.events.latest(viewer));
    const unseen =
      after === null
        ? await this.database.inYard(viewer, (tx) => unseenAlarms(tx, viewer, latest))
        : [];
    const events = await this.events.follow(viewer, latest);
    return leavable(async function* (left) {
      left.addEventListener('abort', () => void events.return?.(), { once: true });
      yield* unseen;
      for await (const event of events) {
        const rung = rungFor(event, viewer.memberId);
        if (rung !== null) yield rung;
      }
    });
  }

  /** A device is about to show it: whether it should. */
  shown(viewer: Viewer, id: string): Promise<AlarmShown> {
    return this.database.inYard(viewer, async (tx) => {
      await findAlarm(tx, viewer, id);
      const first = await markShown(tx, viewer, id);
      return { first, alarm: await findAlarm(tx, viewer, id) };
    });
  }

  /** The viewer has taken note; doing it twice changes nothing. */
  acknowledge(viewer: Viewer, id: string): Promise<Alarm> {
    return this.database.inYard(viewer, async (tx) => {
      await findAlarm(tx, viewer, id);
      const isFirst = await markAcknowledged(tx, viewer, id);
      const alarm = await findAlarm(tx, viewer, id);
      if (isFirst) await appendEvent(tx, viewer, 'alarm-acknowledged', 'alarm', id);
      return alarm;
    });
  }
}
