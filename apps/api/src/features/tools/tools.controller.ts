import { Controller, Delete, Get, Param, Patch, Post } from '@nestjs/common';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { IfMatch } from '../../platform/etag/revision.ts';
import { Answers } from '../../platform/http/answers.ts';
import { PageOf } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { BodyOf } from '../../platform/shapes/input.ts';
import { Tool, ToolInput, ToolPage, ToolPatch } from './tools.contract.ts';
import { ToolsService } from './tools.service.ts';

@Controller('yards/:yardId/tools')
export class ToolsController {
  constructor(private readonly tools: ToolsService) {}

  @Get()
  @Answers(200, ToolPage)
  list(@By() viewer: Viewer, @PageOf() page: PageRequest): Promise<Page<Tool>> {
    return this.tools.list(viewer, page);
  }

  @Get(':id')
  @Answers(200, Tool)
  get(@By() viewer: Viewer, @Param('id') id: string): Promise<Tool> {
    return this.tools.get(viewer, id);
  }

  @Post()
  @Answers(201, Tool)
  create(@By() viewer: Viewer, @BodyOf(ToolInput) input: ToolInput): Promise<Tool> {
    return this.tools.create(viewer, input);
  }

  @Patch(':id')
  @Answers(200, Tool)
  update(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @IfMatch() revision: number,
    @BodyOf(ToolPatch) patch: ToolPatch,
  ): Promise<Tool> {
    return this.tools.update(viewer, id, revision, patch);
  }

  @Delete(':id')
  @Answers(204)
  remove(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @IfMatch() revision: number,
  ): Promise<void> {
    return this.tools.remove(viewer, id, revision);
  }
}
