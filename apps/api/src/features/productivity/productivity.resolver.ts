import { Mutation, Query, Resolver } from '@nestjs/graphql';
import { By, YardArg } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import { Productivity, ProductivityApplied, ProductivityInput } from './productivity.contract.ts';
import { ProductivityService } from './productivity.service.ts';

@Resolver(() => Productivity)
export class ProductivityResolver {
  constructor(private readonly productivity: ProductivityService) {}

  @Query(() => Productivity, { name: 'productivity' })
  get(@By() viewer: Viewer, @YardArg() _yardId: string): Promise<Productivity> {
    return this.productivity.get(viewer);
  }

  @Mutation(() => ProductivityApplied, { name: 'applyProductivity' })
  apply(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @ArgOf(ProductivityInput) input: ProductivityInput,
  ): Promise<ProductivityApplied> {
    return this.productivity.apply(viewer, input);
  }
}
