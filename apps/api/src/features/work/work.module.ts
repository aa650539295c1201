import { Module } from '@nestjs/common';
import { ClaimsController } from './claims.controller.ts';
import { ClaimsService } from './claims.service.ts';
import { ReadyController } from './ready.controller.ts';
import { ReadyService } from './ready.service.ts';
import { WorkResolver } from './work.resolver.ts';

@Module({
  controllers: [ReadyController, ClaimsController],
  providers: [ReadyService, ClaimsService, WorkResolver],
  exports: [ReadyService, ClaimsService],
})
export class WorkModule {}
