import { Module } from '@nestjs/common';
import { ClaimsController } from './claims.controller.ts';
import { ClaimsResolver } from './claims.resolver.ts';
import { ClaimsService } from './claims.service.ts';
import { ReadyController } from './ready.controller.ts';
import { ReadyResolver } from './ready.resolver.ts';
import { ReadyService } from './ready.service.ts';
import { TasksController } from './tasks.controller.ts';
import { TasksResolver } from './tasks.resolver.ts';
import { TasksService } from './tasks.service.ts';
import { WorkService } from './work.service.ts';

@Module({
  controllers: [TasksController, ReadyController, ClaimsController],
  providers: [
    WorkService,
    ClaimsService,
    ClaimsResolver,
    TasksService,
    TasksResolver,
    ReadyService,
    ReadyResolver,
  ],
  exports: [WorkService, ClaimsService, ReadyService],
})
export class WorkModule {}
