import { Args, ID, Mutation, Query, Resolver } from '@nestjs/graphql';
import { By, YardArg } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { PageArg } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import { AcceptInput, Change, ChangeInput, ChangePage, RefuseInput } from './changes.contract.ts';
import { ChangesService } from './changes.service.ts';

const IdArg = (): ParameterDecorator => Args('id', { type: () => ID });

@Resolver(() => Change)
export class ChangesResolver {
  constructor(private readonly asked: ChangesService) {}

  @Query(() => ChangePage)
  changes(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @PageArg() page: PageRequest,
  ): Promise<Page<Change>> {
    return this.asked.list(viewer, undefined, page);
  }

  @Query(() => Change)
  change(@By() viewer: Viewer, @YardArg() _yardId: string, @IdArg() id: string): Promise<Change> {
    return this.asked.get(viewer, id);
  }

  @Mutation(() => Change)
  askForChange(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @ArgOf(ChangeInput) input: ChangeInput,
  ): Promise<Change> {
    return this.asked.ask(viewer, input);
  }

  @Mutation(() => Change)
  repriceChange(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @IdArg() id: string,
  ): Promise<Change> {
    return this.asked.reprice(viewer, id);
  }

  @Mutation(() => Change)
  acceptChange(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @IdArg() id: string,
    @ArgOf(AcceptInput) input: AcceptInput,
  ): Promise<Change> {
    return this.asked.accept(viewer, id, input);
  }

  @Mutation(() => Change)
  declineChange(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @IdArg() id: string,
    @ArgOf(RefuseInput) input: RefuseInput,
  ): Promise<Change> {
    return this.asked.decline(viewer, id, input);
  }

  @Mutation(() => Change)
  withdrawChange(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @IdArg() id: string,
    @ArgOf(RefuseInput) input: RefuseInput,
  ): Promise<Change> {
    return this.asked.withdraw(viewer, id, input);
  }
}
