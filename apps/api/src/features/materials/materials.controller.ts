import { Controller, Delete, Get, Param, Patch, Post } from '@nestjs/common';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { IfMatch } from '../../platform/etag/revision.ts';
import { Answers } from '../../platform/http/answers.ts';
import { PageOf } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { BodyOf } from '../../platform/shapes/input.ts';
import { Material, MaterialInput, MaterialPage, MaterialPatch } from './materials.contract.ts';
import { MaterialSheet, MaterialVersionList } from './sheet.contract.ts';
import { MaterialsService } from './materials.service.ts';

@Controller('yards/:yardId/materials')
export class MaterialsController {
  constructor(private readonly materials: MaterialsService) {}

  @Get()
  @Answers(200, MaterialPage)
  list(@By() viewer: Viewer, @PageOf() page: PageRequest): Promise<Page<Material>> {
    return this.materials.list(viewer, page);
  }

  @Get(':id')
  @Answers(200, Material)
  get(@By() viewer: Viewer, @Param('id') id: string): Promise<Material> {
    return this.materials.get(viewer, id);
  }

  /** What is reckoned with: its class with the yard's own sheet and observations laid over it. */
  @Get(':id/sheet')
  @Answers(200, MaterialSheet)
  sheet(@By() viewer: Viewer, @Param('id') id: string): Promise<MaterialSheet> {
    return this.materials.sheet(viewer, id);
  }

  @Get(':id/versions')
  @Answers(200, MaterialVersionList)
  versions(@By() viewer: Viewer, @Param('id') id: string): Promise<MaterialVersionList> {
    return this.materials.versions(viewer, id);
  }

  @Post()
  @Answers(201, Material)
  create(@By() viewer: Viewer, @BodyOf(MaterialInput) input: MaterialInput): Promise<Material> {
    return this.materials.create(viewer, input);
  }

  @Patch(':id')
  @Answers(200, Material)
  update(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @IfMatch() revision: number,
    @BodyOf(MaterialPatch) patch: MaterialPatch,
  ): Promise<Material> {
    return this.materials.update(viewer, id, revision, patch);
  }

  @Delete(':id')
  @Answers(204)
  remove(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @IfMatch() revision: number,
  ): Promise<void> {
    return this.materials.remove(viewer, id, revision);
  }
}
