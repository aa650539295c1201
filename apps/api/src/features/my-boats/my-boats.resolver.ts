import { Args, ID, Query, Resolver, Subscription } from '@nestjs/graphql';
import { By, YardArg } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import { mappedLeavable } from '../../platform/streams/leavable.ts';
import { eventIdOf } from '../../platform/streams/sse.ts';
import { MyBoatChangesService } from './my-boat-changes.service.ts';
import { MyBoatHistoryService } from './my-boat-history.service.ts';
import {
  MyBoat,
  MyBoatChanged,
  MyBoatHistory,
  MyBoatHistoryQuery,
  MyBoats,
} from './my-boats.contract.ts';
import { MyBoatsService } from './my-boats.service.ts';

@Resolver(() => MyBoat)
export class MyBoatsResolver {
  constructor(
    private readonly boats: MyBoatsService,
    private readonly histories: MyBoatHistoryService,
    private readonly changes: MyBoatChangesService,
  ) {}

  @Query(() => MyBoats)
  myBoats(@By() viewer: Viewer, @YardArg() _yardId: string): Promise<MyBoats> {
    return this.boats.list(viewer);
  }

  @Query(() => MyBoat)
  myBoat(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
  ): Promise<MyBoat> {
    return this.boats.get(viewer, id);
  }

  @Query(() => MyBoatHistory)
  myBoatHistory(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
    @ArgOf(MyBoatHistoryQuery) input: MyBoatHistoryQuery,
  ): Promise<MyBoatHistory> {
    return this.histories.history(viewer, id, input);
  }

  @Subscription(() => MyBoatChanged)
  async myBoatChanged(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('after', { type: () => ID, nullable: true }) after?: string,
  ): Promise<AsyncIterableIterator<{ myBoatChanged: MyBoatChanged }, void>> {
    const changed = await this.changes.follow(viewer, eventIdOf(after, 'after'));
    return mappedLeavable(changed, (myBoatChanged) => ({ myBoatChanged }));
  }
}
