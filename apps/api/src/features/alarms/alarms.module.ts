import { Module } from '@nestjs/common';
import { EventsModule } from '../events/events.module.ts';
import { AlarmsController } from './alarms.controller.ts';
import { AlarmsResolver } from './alarms.resolver.ts';
import { AlarmsService } from './alarms.service.ts';

@Module({
  imports: [EventsModule],
  controllers: [AlarmsController],
  providers: [AlarmsService, AlarmsResolver],
})
export class AlarmsModule {}
