import { Controller, Get, Param } from '@nestjs/common';
import { Answers } from '../../platform/http/answers.ts';
import { CatalogueFabrics, ClassList, MaterialClass } from './catalogue.contract.ts';
import { CatalogueService } from './catalogue.service.ts';

@Controller('yards/:yardId/catalogue')
export class CatalogueController {
  constructor(private readonly catalogue: CatalogueService) {}

  @Get('classes')
  @Answers(200, ClassList)
  classes(): ClassList {
    return this.catalogue.classes();
  }

  @Get('classes/:id')
  @Answers(200, MaterialClass)
  class(@Param('id') id: string): MaterialClass {
    return this.catalogue.class(id);
  }

  @Get('fabrics')
  @Answers(200, CatalogueFabrics)
  fabrics(): CatalogueFabrics {
    return this.catalogue.fabrics();
  }
}
