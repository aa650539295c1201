import { Controller, Delete, Get, Param, Post } from '@nestjs/common';
import { By, ByAccount } from '../../platform/access/caller.ts';
import type { Account, Viewer } from '../../platform/access/viewer.ts';
import { Answers } from '../../platform/http/answers.ts';
import { ShownOnce } from '../../platform/idempotency/secret.ts';
import { PageOf } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { BodyOf } from '../../platform/shapes/input.ts';
import { Calendar, CalendarInput, CalendarPage, NewCalendar } from './calendars.contract.ts';
import { CalendarsService } from './calendars.service.ts';

@Controller('yards/:yardId/calendars')
export class CalendarsController {
  constructor(private readonly calendars: CalendarsService) {}

  @Get()
  @Answers(200, CalendarPage)
  list(@By() viewer: Viewer, @PageOf() page: PageRequest): Promise<Page<Calendar>> {
    return this.calendars.list(viewer, page);
  }

  @Post()
  @ShownOnce('url')
  @Answers(201, NewCalendar)
  create(
    @By() viewer: Viewer,
    @ByAccount() account: Account,
    @BodyOf(CalendarInput) input: CalendarInput,
  ): Promise<NewCalendar> {
    return this.calendars.create(viewer, account, input);
  }

  @Delete(':id')
  @Answers(204)
  revoke(@By() viewer: Viewer, @Param('id') id: string): Promise<void> {
    return this.calendars.revoke(viewer, id);
  }
}
