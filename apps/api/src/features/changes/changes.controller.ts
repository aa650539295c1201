import { Controller, Get, Param, Post } from '@nestjs/common';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Answers } from '../../platform/http/answers.ts';
import type { Page } from '../../platform/paging/page.ts';
import { BodyOf, QueryOf } from '../../platform/shapes/input.ts';
import {
  AcceptInput,
  Change,
  ChangeInput,
  ChangePage,
  ChangesQuery,
  RefuseInput,
} from './changes.contract.ts';
import { ChangesService } from './changes.service.ts';

@Controller('yards/:yardId/changes')
export class ChangesController {
  constructor(private readonly changes: ChangesService) {}

  @Get()
  @Answers(200, ChangePage)
  list(
    @By() viewer: Viewer,
    @QueryOf(ChangesQuery) { state, ...page }: ChangesQuery,
  ): Promise<Page<Change>> {
    return this.changes.list(viewer, state, page);
  }

  @Get(':id')
  @Answers(200, Change)
  get(@By() viewer: Viewer, @Param('id') id: string): Promise<Change> {
    return this.changes.get(viewer, id);
  }

  @Post()
  @Answers(201, Change)
  ask(@By() viewer: Viewer, @BodyOf(ChangeInput) input: ChangeInput): Promise<Change> {
    return this.changes.ask(viewer, input);
  }

  @Post(':id/reprice')
  @Answers(200, Change)
  reprice(@By() viewer: Viewer, @Param('id') id: string): Promise<Change> {
    return this.changes.reprice(viewer, id);
  }

  @Post(':id/accept')
  @Answers(200, Change)
  accept(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @BodyOf(AcceptInput) input: AcceptInput,
  ): Promise<Change> {
    return this.changes.accept(viewer, id, input);
  }

  @Post(':id/decline')
  @Answers(200, Change)
  decline(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @BodyOf(RefuseInput) input: RefuseInput,
  ): Promise<Change> {
    return this.changes.decline(viewer, id, input);
  }

  @Post(':id/withdraw')
  @Answers(200, Change)
  withdraw(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @BodyOf(RefuseInput) input: RefuseInput,
  ): Promise<Change> {
    return this.changes.withdraw(viewer, id, input);
  }
}
