import { Module } from '@nestjs/common';
import { ClaimsController } from './claims.controller.ts';
import { ClaimsService } from './claims.service.ts';
import { ReadyController } from './ready.controller.ts';
import { ReadyService } from './ready.service.ts';
import { TasksController } from './tasks.controller.ts';
import { TasksResolver } from './tasks.resolver.ts';
import { TasksService } from './tasks.service.ts';
import { WorkResolver } from './work.resolver.ts';

@Module({
  controllers: [TasksController, ReadyController, ClaimsController],
  providers: [TasksService, TasksResolver, ReadyService, ClaimsService, WorkResolver],
  exports: [ReadyService, ClaimsService],
})
export class WorkModule {}
