import { Args, ID, Query, Resolver } from '@nestjs/graphql';
import { By, YardArg } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { MyBoat, MyBoats } from './my-boats.contract.ts';
import { MyBoatsService } from './my-boats.service.ts';

@Resolver(() => MyBoat)
export class MyBoatsResolver {
  constructor(private readonly boats: MyBoatsService) {}

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
}
