import { Controller, Get } from '@nestjs/common';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Answers } from '../../platform/http/answers.ts';
import type { Page } from '../../platform/paging/page.ts';
import { QueryOf } from '../../platform/shapes/input.ts';
import { AuditEntry, AuditEntryPage, AuditQuery } from './audit.contract.ts';
import { AuditService } from './audit.service.ts';

@Controller('yards/:yardId/audit')
export class AuditController {
  constructor(private readonly audit: AuditService) {}

  /** Newest first. */
  @Get()
  @Answers(200, AuditEntryPage)
  list(
    @By() viewer: Viewer,
    @QueryOf(AuditQuery) { first, after, ...filter }: AuditQuery,
  ): Promise<Page<AuditEntry>> {
    return this.audit.list(viewer, filter, { first, after });
  }
}
