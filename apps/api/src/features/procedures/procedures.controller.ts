import { Controller, Get, Param, Post } from '@nestjs/common';
import { z } from 'zod';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Answers } from '../../platform/http/answers.ts';
import { PageOf } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { BodyOf, ShapePipe } from '../../platform/shapes/input.ts';
import {
  Procedure,
  ProcedureInput,
  ProcedurePage,
  ProcedureVersionInput,
} from './procedures.contract.ts';
import { ProcedurePreview, ProcedurePreviewInput } from './preview.contract.ts';
import { ProceduresService } from './procedures.service.ts';

const versionText = z.coerce.number().int().min(1).max(1_000_000);

/** A procedure is never changed: a better one is a new version, and jobs keep the one they were made from. */
@Controller('yards/:yardId/procedures')
export class ProceduresController {
  constructor(private readonly procedures: ProceduresService) {}

  @Get()
  @Answers(200, ProcedurePage)
  list(@By() viewer: Viewer, @PageOf() page: PageRequest): Promise<Page<Procedure>> {
    return this.procedures.list(viewer, page);
  }

  @Get(':id')
  @Answers(200, Procedure)
  get(@By() viewer: Viewer, @Param('id') id: string): Promise<Procedure> {
    return this.procedures.get(viewer, id);
  }

  @Get(':id/versions/:version')
  @Answers(200, Procedure)
  getVersion(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @Param('version', new ShapePipe(versionText)) version: number,
  ): Promise<Procedure> {
    return this.procedures.get(viewer, id, version);
  }

  /** The tasks it would make; nothing is saved. */
  @Post(':id/preview')
  @Answers(200, ProcedurePreview)
  preview(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @BodyOf(ProcedurePreviewInput) input: ProcedurePreviewInput,
  ): Promise<ProcedurePreview> {
    return this.procedures.preview(viewer, id, input);
  }

  @Post()
  @Answers(201, Procedure)
  create(@By() viewer: Viewer, @BodyOf(ProcedureInput) input: ProcedureInput): Promise<Procedure> {
    return this.procedures.create(viewer, input);
  }

  @Post(':id/versions')
  @Answers(201, Procedure)
  createVersion(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @BodyOf(ProcedureVersionInput) input: ProcedureVersionInput,
  ): Promise<Procedure> {
    return this.procedures.createVersion(viewer, id, input);
  }
}
