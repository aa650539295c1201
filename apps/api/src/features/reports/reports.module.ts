import { Module } from '@nestjs/common';
import { ObservationsModule } from '../observations/observations.module.ts';
import { ReadingsModule } from '../readings/readings.module.ts';
import { WorkModule } from '../work/work.module.ts';
import { HeldReports } from './held-reports.ts';
import { ReportedWork } from './reported-work.ts';
import { ReportsController } from './reports.controller.ts';
import { ReportsResolver } from './reports.resolver.ts';
import { ReportsService } from './reports.service.ts';

@Module({
  imports: [WorkModule, ReadingsModule, ObservationsModule],
  controllers: [ReportsController],
  providers: [ReportsService, ReportsResolver, ReportedWork, HeldReports],
})
export class ReportsModule {}
