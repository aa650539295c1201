import { Controller, Get, Param, Post, StreamableFile } from '@nestjs/common';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Answers } from '../../platform/http/answers.ts';
import type { Page } from '../../platform/paging/page.ts';
import { QueryOf } from '../../platform/shapes/input.ts';
import { GetSse, LastEventId, sseOf } from '../../platform/streams/sse.ts';
import { Alarm, AlarmPage, AlarmShown, AlarmsQuery } from './alarms.contract.ts';
import { AlarmsService } from './alarms.service.ts';

@Controller('yards/:yardId/alarms')
export class AlarmsController {
  constructor(private readonly alarms: AlarmsService) {}

  /** Those that rang for the caller: what is not acknowledged first, each from the newest. */
  @Get()
  @Answers(200, AlarmPage)
  list(
    @By() viewer: Viewer,
    @QueryOf(AlarmsQuery) { all, ...page }: AlarmsQuery,
  ): Promise<Page<Alarm>> {
    return this.alarms.list(viewer, all !== undefined && all !== 'false', page);
  }

  /**
   * Server-sent events: first those of the last day that the caller has not been shown, then each
   * as it rings. `id` is the event's; with `Last-Event-ID` it goes on after that.
   */
  @GetSse('stream')
  async follow(@By() viewer: Viewer, @LastEventId() after: bigint | null): Promise<StreamableFile> {
    return sseOf(await this.alarms.follow(viewer, after), (alarm) => ({
      id: alarm.eventId,
      event: 'alarm',
      data: alarm,
    }));
  }

  /** Before a device shows it. */
  @Post(':id/shown')
  @Answers(200, AlarmShown)
  shown(@By() viewer: Viewer, @Param('id') id: string): Promise<AlarmShown> {
    return this.alarms.shown(viewer, id);
  }

  @Post(':id/acknowledge')
  @Answers(200, Alarm)
  acknowledge(@By() viewer: Viewer, @Param('id') id: string): Promise<Alarm> {
    return this.alarms.acknowledge(viewer, id);
  }
}
