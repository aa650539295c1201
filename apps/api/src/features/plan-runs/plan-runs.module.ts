import { Module } from '@nestjs/common';
import { EventsModule } from '../events/events.module.ts';
import { PlanRunsController } from './plan-runs.controller.ts';
import { PlanRunsResolver } from './plan-runs.resolver.ts';
import { PlanRunsService } from './plan-runs.service.ts';

@Module({
  imports: [EventsModule],
  controllers: [PlanRunsController],
  providers: [PlanRunsService, PlanRunsResolver],
  exports: [PlanRunsService],
})
export class PlanRunsModule {}
