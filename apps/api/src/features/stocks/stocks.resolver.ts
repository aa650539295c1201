import { Args, ID, Int, Mutation, Query, Resolver } from '@nestjs/graphql';
import { By, YardArg } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { PageArg } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import { Stock, StockInput, StockPage, StockPatch } from './stocks.contract.ts';
import { StocksService } from './stocks.service.ts';

@Resolver(() => Stock)
export class StocksResolver {
  constructor(private readonly stocks: StocksService) {}

  @Query(() => StockPage, { name: 'stocks' })
  list(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @PageArg() page: PageRequest,
  ): Promise<Page<Stock>> {
    return this.stocks.list(viewer, page);
  }

  @Query(() => Stock, { name: 'stock' })
  get(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
  ): Promise<Stock> {
    return this.stocks.get(viewer, id);
  }

  @Mutation(() => Stock, { name: 'createStock' })
  create(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @ArgOf(StockInput) input: StockInput,
  ): Promise<Stock> {
    return this.stocks.create(viewer, input);
  }

  @Mutation(() => Stock, { name: 'updateStock' })
  update(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
    @Args('revision', { type: () => Int }) revision: number,
    @ArgOf(StockPatch) patch: StockPatch,
  ): Promise<Stock> {
    return this.stocks.update(viewer, id, revision, patch);
  }
}
