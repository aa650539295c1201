import { Module } from '@nestjs/common';
import { PlansController } from './plans.controller.ts';
import { PlansResolver } from './plans.resolver.ts';
import { PlansService } from './plans.service.ts';
import { PublishedPlanController } from './published-plan.controller.ts';

@Module({
  controllers: [PlansController, PublishedPlanController],
  providers: [PlansService, PlansResolver],
  exports: [PlansService],
})
export class PlansModule {}
