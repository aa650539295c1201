import { Args, ID, Query, Resolver } from '@nestjs/graphql';
import { YardArg } from '../../platform/access/caller.ts';
import { CatalogueFabrics, ClassList, MaterialClass } from './catalogue.contract.ts';
import { CatalogueService } from './catalogue.service.ts';

@Resolver(() => MaterialClass)
export class CatalogueResolver {
  constructor(private readonly catalogue: CatalogueService) {}

  @Query(() => ClassList, { name: 'materialClasses' })
  classes(@YardArg() _yardId: string): ClassList {
    return this.catalogue.classes();
  }

  @Query(() => MaterialClass, { name: 'materialClass' })
  class(@YardArg() _yardId: string, @Args('id', { type: () => ID }) id: string): MaterialClass {
    return this.catalogue.class(id);
  }

  @Query(() => CatalogueFabrics, { name: 'catalogueFabrics' })
  fabrics(@YardArg() _yardId: string): CatalogueFabrics {
    return this.catalogue.fabrics();
  }
}
