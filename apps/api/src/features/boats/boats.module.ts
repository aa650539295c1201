import { Module } from '@nestjs/common';
import { BoatsController } from './boats.controller.ts';
import { BoatsResolver } from './boats.resolver.ts';
import { BoatsService } from './boats.service.ts';
import { JobsController } from './jobs.controller.ts';
import { JobsService } from './jobs.service.ts';
import { PartsController } from './parts.controller.ts';
import { PartsService } from './parts.service.ts';
import { RefitsController } from './refits.controller.ts';
import { RefitsResolver } from './refits.resolver.ts';
import { RefitsService } from './refits.service.ts';

@Module({
  controllers: [BoatsController, RefitsController, PartsController, JobsController],
  providers: [
    BoatsService,
    RefitsService,
    PartsService,
    JobsService,
    BoatsResolver,
    RefitsResolver,
  ],
  exports: [BoatsService, RefitsService, PartsService, JobsService],
})
export class BoatsModule {}
