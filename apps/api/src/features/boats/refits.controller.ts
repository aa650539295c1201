import { Controller, Delete, Get, Param, Patch, Post } from '@nestjs/common';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { IfMatch } from '../../platform/etag/revision.ts';
import { Answers } from '../../platform/http/answers.ts';
import { BodyOf } from '../../platform/shapes/input.ts';
import { Part, PartInput, Refit, RefitPatch } from './boats.contract.ts';
import { RefitsService } from './refits.service.ts';
import { PartsService } from './parts.service.ts';

@Controller('yards/:yardId/refits/:id')
export class RefitsController {
  constructor(
    private readonly refits: RefitsService,
    private readonly parts: PartsService,
  ) {}

  @Get()
  @Answers(200, Refit)
  get(@By() viewer: Viewer, @Param('id') id: string): Promise<Refit> {
    return this.refits.get(viewer, id);
  }

  @Patch()
  @Answers(200, Refit)
  update(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @IfMatch() revision: number,
    @BodyOf(RefitPatch) patch: RefitPatch,
  ): Promise<Refit> {
    return this.refits.update(viewer, id, revision, patch);
  }

  @Delete()
  @Answers(204)
  remove(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @IfMatch() revision: number,
  ): Promise<void> {
    return this.refits.remove(viewer, id, revision);
  }

  @Post('parts')
  @Answers(201, Part)
  createPart(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @BodyOf(PartInput) input: PartInput,
  ): Promise<Part> {
    return this.parts.create(viewer, id, input);
  }
}
