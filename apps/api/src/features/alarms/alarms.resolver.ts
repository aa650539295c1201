import { Args, ID, Mutation, Query, Resolver, Subscription } from '@nestjs/graphql';
import { By, YardArg } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { PageArg } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { mappedLeavable } from '../../platform/streams/leavable.ts';
import { eventIdOf } from '../../platform/streams/sse.ts';
import { Alarm, AlarmPage, AlarmShown, RungAlarm } from './alarms.contract.ts';
import { AlarmsService } from './alarms.service.ts';

@Resolver(() => Alarm)
export class AlarmsResolver {
  constructor(private readonly service: AlarmsService) {}

  @Query(() => AlarmPage, { name: 'alarms' })
  list(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @PageArg() page: PageRequest,
    @Args('all', { type: () => Boolean, defaultValue: false }) all: boolean,
  ): Promise<Page<Alarm>> {
    return this.service.list(viewer, all, page);
  }

  @Subscription(() => RungAlarm, { name: 'alarms' })
  async follow(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('after', { type: () => ID, nullable: true }) after?: string,
  ): Promise<AsyncIterableIterator<{ alarms: RungAlarm }, void>> {
    const rung = await this.service.follow(viewer, eventIdOf(after, 'after'));
    return mappedLeavable(rung, (alarms) => ({ alarms }));
  }

  @Mutation(() => AlarmShown)
  alarmShown(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
  ): Promise<AlarmShown> {
    return this.service.shown(viewer, id);
  }

  @Mutation(() => Alarm)
  acknowledgeAlarm(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
  ): Promise<Alarm> {
    return this.service.acknowledge(viewer, id);
  }
}
