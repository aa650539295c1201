import { Module } from '@nestjs/common';
import { BarriersController } from './barriers.controller.ts';
import { BarriersResolver } from './barriers.resolver.ts';
import { BarriersService } from './barriers.service.ts';

@Module({
  controllers: [BarriersController],
  providers: [BarriersService, BarriersResolver],
  exports: [BarriersService],
})
export class BarriersModule {}
