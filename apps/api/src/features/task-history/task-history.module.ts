import { Module } from '@nestjs/common';
import { TaskHistoryController } from './task-history.controller.ts';
import { TaskHistoryResolver } from './task-history.resolver.ts';
import { TaskHistoryService } from './task-history.service.ts';

@Module({
  controllers: [TaskHistoryController],
  providers: [TaskHistoryService, TaskHistoryResolver],
})
export class TaskHistoryModule {}
