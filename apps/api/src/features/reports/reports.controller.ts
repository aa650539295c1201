import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { ApiBody } from '@nestjs/swagger';
import type { z } from 'zod';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Answers } from '../../platform/http/answers.ts';
import { OwnKeys } from '../../platform/idempotency/own-keys.ts';
import type { Page } from '../../platform/paging/page.ts';
import { BodyOf, QueryOf, ShapePipe } from '../../platform/shapes/input.ts';
import {
  queueSchema,
  Report,
  ReportPage,
  ReportsInput,
  ReportsQuery,
  SettleInput,
  TakenReports,
} from './reports.contract.ts';
import { ReportsService } from './reports.service.ts';

@Controller('yards/:yardId/reports')
export class ReportsController {
  constructor(private readonly reports: ReportsService) {}

  /** One report that cannot be understood does not keep the others back. */
  @Post()
  @OwnKeys()
  @ApiBody({ type: ReportsInput, required: true })
  @Answers(200, TakenReports)
  send(
    @By() viewer: Viewer,
    @Body(new ShapePipe(queueSchema)) queue: z.output<typeof queueSchema>,
  ): Promise<TakenReports> {
    return this.reports.send(viewer, queue);
  }

  @Get()
  @Answers(200, ReportPage)
  list(
    @By() viewer: Viewer,
    @QueryOf(ReportsQuery) { first, after, ...filter }: ReportsQuery,
  ): Promise<Page<Report>> {
    return this.reports.list(viewer, filter, { first, after });
  }

  @Get(':id')
  @Answers(200, Report)
  get(@By() viewer: Viewer, @Param('id') id: string): Promise<Report> {
    return this.reports.get(viewer, id);
  }

  @Post(':id/settle')
  @Answers(200, Report)
  settle(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @BodyOf(SettleInput) input: SettleInput,
  ): Promise<Report> {
    return this.reports.settle(viewer, id, input);
  }
}
