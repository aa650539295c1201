import { Controller, Get, Param, StreamableFile } from '@nestjs/common';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Answers } from '../../platform/http/answers.ts';
import { QueryOf } from '../../platform/shapes/input.ts';
import { GetSse, LastEventId, sseOf } from '../../platform/streams/sse.ts';
import { MyBoatChangesService } from './my-boat-changes.service.ts';
import { MyBoatHistoryService } from './my-boat-history.service.ts';
import { MyBoat, MyBoatHistory, MyBoatHistoryQuery, MyBoats } from './my-boats.contract.ts';
import { MyBoatsService } from './my-boats.service.ts';

@Controller('yards/:yardId/my-boats')
export class MyBoatsController {
  constructor(
    private readonly boats: MyBoatsService,
    private readonly histories: MyBoatHistoryService,
    private readonly changes: MyBoatChangesService,
  ) {}

  @Get()
  @Answers(200, MyBoats)
  list(@By() viewer: Viewer): Promise<MyBoats> {
    return this.boats.list(viewer);
  }

  /**
   * Server-sent events: `data` names own boats that are not what they were. With `Last-Event-ID` it
   * begins with all of them, since nobody knows what happened meanwhile.
   */
  @GetSse('stream')
  async follow(@By() viewer: Viewer, @LastEventId() after: bigint | null): Promise<StreamableFile> {
    return sseOf(await this.changes.follow(viewer, after), (changed) => ({
      id: changed.eventId,
      event: 'my-boat-changed',
      data: changed,
    }));
  }

  @Get(':id')
  @Answers(200, MyBoat)
  get(@By() viewer: Viewer, @Param('id') id: string): Promise<MyBoat> {
    return this.boats.get(viewer, id);
  }

  @Get(':id/history')
  @Answers(200, MyBoatHistory)
  history(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @QueryOf(MyBoatHistoryQuery) input: MyBoatHistoryQuery,
  ): Promise<MyBoatHistory> {
    return this.histories.history(viewer, id, input);
  }
}
