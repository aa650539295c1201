import { Controller, Delete, Get, Param, Patch, Post } from '@nestjs/common';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { IfMatch } from '../../platform/etag/revision.ts';
import { Answers } from '../../platform/http/answers.ts';
import { PageOf } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { BodyOf } from '../../platform/shapes/input.ts';
import { Fabric, FabricInput, FabricPage, FabricPatch } from './fabrics.contract.ts';
import { FabricsService } from './fabrics.service.ts';

@Controller('yards/:yardId/fabrics')
export class FabricsController {
  constructor(private readonly fabrics: FabricsService) {}

  @Get()
  @Answers(200, FabricPage)
  list(@By() viewer: Viewer, @PageOf() page: PageRequest): Promise<Page<Fabric>> {
    return this.fabrics.list(viewer, page);
  }

  @Get(':id')
  @Answers(200, Fabric)
  get(@By() viewer: Viewer, @Param('id') id: string): Promise<Fabric> {
    return this.fabrics.get(viewer, id);
  }

  @Post()
  @Answers(201, Fabric)
  create(@By() viewer: Viewer, @BodyOf(FabricInput) input: FabricInput): Promise<Fabric> {
    return this.fabrics.create(viewer, input);
  }

  @Patch(':id')
  @Answers(200, Fabric)
  update(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @IfMatch() revision: number,
    @BodyOf(FabricPatch) patch: FabricPatch,
  ): Promise<Fabric> {
    return this.fabrics.update(viewer, id, revision, patch);
  }

  @Delete(':id')
  @Answers(204)
  remove(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @IfMatch() revision: number,
  ): Promise<void> {
    return this.fabrics.remove(viewer, id, revision);
  }
}
