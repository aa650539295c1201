import { Module } from '@nestjs/common';
import { EventsModule } from '../events/events.module.ts';
import { MyBoatChangesService } from './my-boat-changes.service.ts';
import { MyBoatHistoryService } from './my-boat-history.service.ts';
import { MyBoatsController } from './my-boats.controller.ts';
import { MyBoatsResolver } from './my-boats.resolver.ts';
import { MyBoatsService } from './my-boats.service.ts';

@Module({
  imports: [EventsModule],
  controllers: [MyBoatsController],
  providers: [MyBoatsService, MyBoatHistoryService, MyBoatChangesService, MyBoatsResolver],
  exports: [MyBoatsService],
})
export class MyBoatsModule {}
