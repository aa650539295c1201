import { Module } from '@nestjs/common';
import { CalendarFeedController } from './calendar-feed.controller.ts';
import { CalendarsController } from './calendars.controller.ts';
import { CalendarsResolver } from './calendars.resolver.ts';
import { CalendarsService } from './calendars.service.ts';
import { FeedsService } from './feeds.service.ts';

@Module({
  controllers: [CalendarsController, CalendarFeedController],
  providers: [CalendarsService, FeedsService, CalendarsResolver],
})
export class CalendarsModule {}
