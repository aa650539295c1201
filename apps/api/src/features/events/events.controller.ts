import { Controller, StreamableFile } from '@nestjs/common';
import { isoOf } from '#persistence/rows.ts';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { GetSse, LastEventId, sseOf } from '../../platform/streams/sse.ts';
import { EventsService } from './events.service.ts';

@Controller('yards/:yardId/events')
export class EventsController {
  constructor(private readonly events: EventsService) {}

  /** Server-sent events: `event` is the kind, `data` the event with its payload. */
  @GetSse()
  async follow(@By() viewer: Viewer, @LastEventId() after: bigint | null): Promise<StreamableFile> {
    return sseOf(await this.events.follow(viewer, after), (event) => ({
      id: String(event.id),
      event: event.kind,
      data: {
        id: String(event.id),
        kind: event.kind,
        subject: event.subject,
        subjectId: event.subjectId,
        at: isoOf(event.at),
        byMemberId: event.byMemberId,
        payload: event.payload,
      },
    }));
  }
}
