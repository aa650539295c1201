import { Args, ID, Int, Mutation, Query, Resolver } from '@nestjs/graphql';
import { By, YardArg } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { PageArg } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import { SnagDecisionsService } from './snag-decisions.service.ts';
import {
  AcceptReworkInput,
  Snag,
  SnagInput,
  SnagKinds,
  SnagNoteInput,
  SnagPage,
  SnagPatch,
  SnagsFilter,
} from './snags.contract.ts';
import { SnagsService } from './snags.service.ts';

@Resolver(() => Snag)
export class SnagsResolver {
  constructor(
    private readonly snags: SnagsService,
    private readonly decisions: SnagDecisionsService,
  ) {}

  @Query(() => SnagKinds, { name: 'snagKinds' })
  kinds(@YardArg() _yardId: string): SnagKinds {
    return this.snags.kinds();
  }

  @Query(() => SnagPage, { name: 'snags' })
  list(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @ArgOf(SnagsFilter) input: SnagsFilter,
    @PageArg() page: PageRequest,
  ): Promise<Page<Snag>> {
    return this.snags.list(viewer, input, page);
  }

  @Query(() => Snag, { name: 'snag' })
  get(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
  ): Promise<Snag> {
    return this.snags.get(viewer, id);
  }

  @Mutation(() => Snag, { name: 'raiseSnag' })
  raise(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('partId', { type: () => ID }) partId: string,
    @ArgOf(SnagInput) input: SnagInput,
  ): Promise<Snag> {
    return this.snags.raise(viewer, partId, input);
  }

  @Mutation(() => Snag, { name: 'updateSnag' })
  update(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
    @Args('revision', { type: () => Int }) revision: number,
    @ArgOf(SnagPatch) patch: SnagPatch,
  ): Promise<Snag> {
    return this.snags.update(viewer, id, revision, patch);
  }

  @Mutation(() => Snag, { name: 'proposeRework' })
  propose(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
  ): Promise<Snag> {
    return this.decisions.propose(viewer, id);
  }

  @Mutation(() => Snag, { name: 'acceptRework' })
  accept(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
    @ArgOf(AcceptReworkInput) input: AcceptReworkInput,
  ): Promise<Snag> {
    return this.decisions.accept(viewer, id, input);
  }

  @Mutation(() => Snag, { name: 'dismissSnag' })
  dismiss(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
    @ArgOf(SnagNoteInput) { note }: SnagNoteInput,
  ): Promise<Snag> {
    return this.decisions.dismiss(viewer, id, note);
  }

  @Mutation(() => Snag, { name: 'settleSnag' })
  settle(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
    @ArgOf(SnagNoteInput) { note }: SnagNoteInput,
  ): Promise<Snag> {
    return this.decisions.settle(viewer, id, note);
  }

  @Mutation(() => Snag, { name: 'reopenSnag' })
  reopen(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
    @ArgOf(SnagNoteInput) { note }: SnagNoteInput,
  ): Promise<Snag> {
    return this.decisions.reopen(viewer, id, note);
  }
}
