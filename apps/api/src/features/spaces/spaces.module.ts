import { Module } from '@nestjs/common';
import { SpacesController } from './spaces.controller.ts';
import { SpacesResolver } from './spaces.resolver.ts';
import { SpacesService } from './spaces.service.ts';

@Module({
  controllers: [SpacesController],
  providers: [SpacesService, SpacesResolver],
  exports: [SpacesService],
})
export class SpacesModule {}
