import { Module } from '@nestjs/common';
import { DeliveriesController } from './deliveries.controller.ts';
import { DeliveriesResolver } from './deliveries.resolver.ts';
import { DeliveriesService } from './deliveries.service.ts';

@Module({
  controllers: [DeliveriesController],
  providers: [DeliveriesService, DeliveriesResolver],
  exports: [DeliveriesService],
})
export class DeliveriesModule {}
