import { Args, ID, Query, Resolver } from '@nestjs/graphql';
import { By, YardArg } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import {
  BondAnswer,
  BondCheckInput,
  BondRuleList,
  PartSurface,
  PartSurfaceQuery,
} from './bonds.contract.ts';
import { BondsService } from './bonds.service.ts';

@Resolver(() => BondAnswer)
export class BondsResolver {
  constructor(private readonly bonds: BondsService) {}

  @Query(() => BondRuleList, { name: 'bondRules' })
  rules(@YardArg() _yardId: string): BondRuleList {
    return this.bonds.rules();
  }

  @Query(() => BondAnswer, { name: 'bondCheck' })
  check(@YardArg() _yardId: string, @ArgOf(BondCheckInput) input: BondCheckInput): BondAnswer {
    return this.bonds.check(input);
  }

  @Query(() => PartSurface, { name: 'partSurface' })
  surface(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('partId', { type: () => ID }) partId: string,
    @ArgOf(PartSurfaceQuery) input: PartSurfaceQuery,
  ): Promise<PartSurface> {
    return this.bonds.surface(viewer, partId, input);
  }
}
