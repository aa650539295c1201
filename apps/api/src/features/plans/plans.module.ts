import { Module } from '@nestjs/common';
import { ExplanationsController } from './explanations.controller.ts';
import { ExplanationsResolver } from './explanations.resolver.ts';
import { ExplanationsService } from './explanations.service.ts';
import { MixSheetsController } from './mix-sheets.controller.ts';
import { MixSheetsResolver } from './mix-sheets.resolver.ts';
import { MixSheetsService } from './mix-sheets.service.ts';
import { PictureController } from './picture.controller.ts';
import { PictureResolver } from './picture.resolver.ts';
import { PictureService } from './picture.service.ts';
import { PlansController } from './plans.controller.ts';
import { PlansResolver } from './plans.resolver.ts';
import { PlansService } from './plans.service.ts';
import { PublishedPlanController } from './published-plan.controller.ts';
import { PublishingsController } from './publishings.controller.ts';

@Module({
  controllers: [
    PlansController,
    ExplanationsController,
    MixSheetsController,
    PublishedPlanController,
    PublishingsController,
    PictureController,
  ],
  providers: [
    PlansService,
    PlansResolver,
    ExplanationsService,
    ExplanationsResolver,
    MixSheetsService,
    MixSheetsResolver,
    PictureService,
    PictureResolver,
  ],
  exports: [PlansService],
})
export class PlansModule {}
