import { Module } from '@nestjs/common';
import { CatalogueController } from './catalogue.controller.ts';
import { CatalogueResolver } from './catalogue.resolver.ts';
import { CatalogueService } from './catalogue.service.ts';

@Module({
  controllers: [CatalogueController],
  providers: [CatalogueService, CatalogueResolver],
  exports: [CatalogueService],
})
export class CatalogueModule {}
