import { Args, ID, Int, Mutation, Query, Resolver } from '@nestjs/graphql';
import { By, YardArg } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { PageArg } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import { Delivery, DeliveryInput, DeliveryPage, DeliveryPatch } from './deliveries.contract.ts';
import { DeliveriesService } from './deliveries.service.ts';

@Resolver(() => Delivery)
export class DeliveriesResolver {
  constructor(private readonly deliveries: DeliveriesService) {}

  @Query(() => DeliveryPage, { name: 'deliveries' })
  list(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @PageArg() page: PageRequest,
  ): Promise<Page<Delivery>> {
    return this.deliveries.list(viewer, page);
  }

  @Query(() => Delivery, { name: 'delivery' })
  get(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
  ): Promise<Delivery> {
    return this.deliveries.get(viewer, id);
  }

  @Mutation(() => Delivery, { name: 'createDelivery' })
  create(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @ArgOf(DeliveryInput) input: DeliveryInput,
  ): Promise<Delivery> {
    return this.deliveries.create(viewer, input);
  }

  @Mutation(() => Delivery, { name: 'updateDelivery' })
  update(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
    @Args('revision', { type: () => Int }) revision: number,
    @ArgOf(DeliveryPatch) patch: DeliveryPatch,
  ): Promise<Delivery> {
    return this.deliveries.update(viewer, id, revision, patch);
  }
}
