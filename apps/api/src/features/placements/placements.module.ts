import { Module } from '@nestjs/common';
import { PlansModule } from '../plans/plans.module.ts';
import { PlacementsController } from './placements.controller.ts';
import { PlacementsResolver } from './placements.resolver.ts';
import { PlacementsService } from './placements.service.ts';

@Module({
  imports: [PlansModule],
  controllers: [PlacementsController],
  providers: [PlacementsService, PlacementsResolver],
})
export class PlacementsModule {}
