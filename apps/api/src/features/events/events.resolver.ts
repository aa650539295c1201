import { Args, ID, Resolver, Subscription } from '@nestjs/graphql';
import { isoOf } from '#persistence/rows.ts';
import { By, YardArg } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { mappedLeavable } from '../../platform/streams/leavable.ts';
import { eventIdOf } from '../../platform/streams/sse.ts';
import { YardEvent } from './events.contract.ts';
import { EventsService } from './events.service.ts';

@Resolver(() => YardEvent)
export class EventsResolver {
  constructor(private readonly events: EventsService) {}

  @Subscription(() => YardEvent, { name: 'events' })
  async follow(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('after', { type: () => ID, nullable: true }) after?: string,
  ): Promise<AsyncIterableIterator<{ events: YardEvent }, void>> {
    const events = await this.events.follow(viewer, eventIdOf(after, 'after'));
    return mappedLeavable(events, ({ id, kind, subject, subjectId, at, byMemberId, payload }) => ({
      events: {
        id: String(id),
        kind,
        subject,
        subjectId,
        at: isoOf(at),
        byMemberId,
        payload: JSON.stringify(payload),
      },
    }));
  }
}
