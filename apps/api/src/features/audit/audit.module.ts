import { Module } from '@nestjs/common';
import { AuditController } from './audit.controller.ts';
import { AuditResolver } from './audit.resolver.ts';
import { AuditService } from './audit.service.ts';

@Module({
  controllers: [AuditController],
  providers: [AuditService, AuditResolver],
})
export class AuditModule {}
