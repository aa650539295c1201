import { Module } from '@nestjs/common';
import { ProceduresController } from './procedures.controller.ts';
import { ProceduresResolver } from './procedures.resolver.ts';
import { ProceduresService } from './procedures.service.ts';

@Module({
  controllers: [ProceduresController],
  providers: [ProceduresService, ProceduresResolver],
  exports: [ProceduresService],
})
export class ProceduresModule {}
