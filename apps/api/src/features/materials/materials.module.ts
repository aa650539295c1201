import { Module } from '@nestjs/common';
import { MaterialsController } from './materials.controller.ts';
import { MaterialsResolver } from './materials.resolver.ts';
import { MaterialsService } from './materials.service.ts';

@Module({
  controllers: [MaterialsController],
  providers: [MaterialsService, MaterialsResolver],
  exports: [MaterialsService],
})
export class MaterialsModule {}
