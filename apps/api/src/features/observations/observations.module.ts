import { Module } from '@nestjs/common';
import { ObservationsController } from './observations.controller.ts';
import { ObservationsResolver } from './observations.resolver.ts';
import { ObservationsService } from './observations.service.ts';

@Module({
  controllers: [ObservationsController],
  providers: [ObservationsService, ObservationsResolver],
  exports: [ObservationsService],
})
export class ObservationsModule {}
