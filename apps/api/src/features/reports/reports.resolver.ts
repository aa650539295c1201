import { Args, ID, Mutation, Query, Resolver } from '@nestjs/graphql';
import { By, YardArg } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { OwnKeys } from '../../platform/idempotency/own-keys.ts';
import { PageArg } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import {
  Report,
  ReportPage,
  ReportsFilter,
  ReportsInput,
  SettleInput,
  TakenReports,
} from './reports.contract.ts';
import { ReportsService } from './reports.service.ts';

@Resolver(() => Report)
export class ReportsResolver {
  constructor(private readonly reports: ReportsService) {}

  /** GraphQL reads the whole of it first: what cannot be understood refuses the queue, naming its place. */
  @Mutation(() => TakenReports, { name: 'sendReports' })
  @OwnKeys()
  send(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @ArgOf(ReportsInput) queue: ReportsInput,
  ): Promise<TakenReports> {
    return this.reports.send(viewer, queue);
  }

  @Query(() => ReportPage, { name: 'reports' })
  list(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @ArgOf(ReportsFilter) input: ReportsFilter,
    @PageArg() page: PageRequest,
  ): Promise<Page<Report>> {
    return this.reports.list(viewer, input, page);
  }

  @Query(() => Report, { name: 'report' })
  get(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
  ): Promise<Report> {
    return this.reports.get(viewer, id);
  }

  @Mutation(() => Report, { name: 'settleReport' })
  settle(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
    @ArgOf(SettleInput) input: SettleInput,
  ): Promise<Report> {
    return this.reports.settle(viewer, id, input);
  }
}
