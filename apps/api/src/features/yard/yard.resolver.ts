import { Args, Int, Mutation, Query, Resolver } from '@nestjs/graphql';
import { By, ByAccount, YardArg } from '../../platform/access/caller.ts';
import type { Account, Viewer } from '../../platform/access/viewer.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import { Outdoor, OutdoorInput, Yard, YardList, YardPatch, YardWarnings } from './yard.contract.ts';
import { YardService } from './yard.service.ts';

/** A whole yard file goes in and out by REST only: it is a document, not a selection of fields. */
@Resolver(() => Yard)
export class YardResolver {
  constructor(private readonly service: YardService) {}

  @Query(() => YardList)
  yards(@ByAccount() account: Account): Promise<YardList> {
    return this.service.list(account);
  }

  @Query(() => Yard)
  yard(@YardArg() _yardId: string, @By() viewer: Viewer): Promise<Yard> {
    return this.service.get(viewer);
  }

  @Query(() => Outdoor)
  outdoor(@YardArg() _yardId: string, @By() viewer: Viewer): Promise<Outdoor> {
    return this.service.outdoor(viewer);
  }

  @Query(() => YardWarnings)
  yardWarnings(@YardArg() _yardId: string, @By() viewer: Viewer): Promise<YardWarnings> {
    return this.service.warnings(viewer);
  }

  @Mutation(() => Yard)
  updateYard(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('revision', { type: () => Int }) revision: number,
    @ArgOf(YardPatch) patch: YardPatch,
  ): Promise<Yard> {
    return this.service.update(viewer, revision, patch);
  }

  @Mutation(() => Outdoor)
  importOutdoor(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @ArgOf(OutdoorInput) input: OutdoorInput,
  ): Promise<Outdoor> {
    return this.service.importOutdoor(viewer, input);
  }
}
