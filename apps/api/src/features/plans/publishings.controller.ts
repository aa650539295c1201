import { Controller, Get } from '@nestjs/common';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Answers } from '../../platform/http/answers.ts';
import { PageOf } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { type Publishing, PublishingPage } from './plans.contract.ts';
import { PlansService } from './plans.service.ts';

/** The history of what the yard was told. */
@Controller('yards/:yardId/publishings')
export class PublishingsController {
  constructor(private readonly plans: PlansService) {}

  /** Newest first. */
  @Get()
  @Answers(200, PublishingPage)
  list(@By() viewer: Viewer, @PageOf() page: PageRequest): Promise<Page<Publishing>> {
    return this.plans.publishings(viewer, page);
  }
}
