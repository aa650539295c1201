import { Args, ID, Mutation, Query, Resolver } from '@nestjs/graphql';
import { By, ByAccount, YardArg } from '../../platform/access/caller.ts';
import type { Account, Viewer } from '../../platform/access/viewer.ts';
import { ShownOnce } from '../../platform/idempotency/secret.ts';
import { PageArg } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import { Calendar, CalendarInput, CalendarPage, NewCalendar } from './calendars.contract.ts';
import { CalendarsService } from './calendars.service.ts';

@Resolver(() => Calendar)
export class CalendarsResolver {
  constructor(private readonly calendars: CalendarsService) {}

  @Query(() => CalendarPage, { name: 'calendars' })
  list(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @PageArg() page: PageRequest,
  ): Promise<Page<Calendar>> {
    return this.calendars.list(viewer, page);
  }

  @Mutation(() => NewCalendar, { name: 'createCalendar' })
  @ShownOnce('url')
  create(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @ByAccount() account: Account,
    @ArgOf(CalendarInput) input: CalendarInput,
  ): Promise<NewCalendar> {
    return this.calendars.create(viewer, account, input);
  }

  @Mutation(() => Boolean, { name: 'revokeCalendar' })
  async revoke(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
  ): Promise<boolean> {
    await this.calendars.revoke(viewer, id);
    return true;
  }
}
