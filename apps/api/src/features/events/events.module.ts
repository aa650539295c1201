import { Module } from '@nestjs/common';
import { EventsController } from './events.controller.ts';
import { EventsResolver } from './events.resolver.ts';
import { EventsService } from './events.service.ts';
import { EventFeed } from './feed.ts';

@Module({
  controllers: [EventsController],
  providers: [EventFeed, EventsService, EventsResolver],
  exports: [EventsService],
})
export class EventsModule {}
