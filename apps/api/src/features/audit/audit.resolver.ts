import { Query, Resolver } from '@nestjs/graphql';
import { By, YardArg } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { PageArg } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import { AuditEntry, AuditEntryPage, AuditFilter } from './audit.contract.ts';
import { AuditService } from './audit.service.ts';

@Resolver(() => AuditEntry)
export class AuditResolver {
  constructor(private readonly audit: AuditService) {}

  @Query(() => AuditEntryPage, { name: 'audit' })
  list(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @ArgOf(AuditFilter) input: AuditFilter,
    @PageArg() page: PageRequest,
  ): Promise<Page<AuditEntry>> {
    return this.audit.list(viewer, input, page);
  }
}
