import { Controller, Get, Patch, Post, Put } from '@nestjs/common';
import { By, ByAccount } from '../../platform/access/caller.ts';
import type { Account, Viewer } from '../../platform/access/viewer.ts';
import { IfMatch } from '../../platform/etag/revision.ts';
import { Answers } from '../../platform/http/answers.ts';
import { LargeBody } from '../../platform/http/json-body.ts';
import { BodyOf } from '../../platform/shapes/input.ts';
import {
  Outdoor,
  OutdoorInput,
  Yard,
  YardFileInput,
  YardList,
  YardPatch,
  YardWarnings,
} from './yard.contract.ts';
import type { YardFile } from './yard.contract.ts';
import { YardService } from './yard.service.ts';

@Controller('yards')
export class YardController {
  constructor(private readonly yards: YardService) {}

  @Get()
  @Answers(200, YardList)
  list(@ByAccount() account: Account): Promise<YardList> {
    return this.yards.list(account);
  }

  /** Takes a whole yard file; who sends it becomes its foreman. */
  @Post()
  @LargeBody()
  @Answers(201, Yard)
  create(@ByAccount() account: Account, @BodyOf(YardFileInput) file: YardFile): Promise<Yard> {
    return this.yards.create(account, file);
  }

  @Get(':yardId')
  @Answers(200, Yard)
  get(@By() viewer: Viewer): Promise<Yard> {
    return this.yards.get(viewer);
  }

  @Patch(':yardId')
  @Answers(200, Yard)
  update(
    @By() viewer: Viewer,
    @IfMatch() revision: number,
    @BodyOf(YardPatch) patch: YardPatch,
  ): Promise<Yard> {
    return this.yards.update(viewer, revision, patch);
  }

  @Get(':yardId/export')
  @Answers(200, YardFileInput)
  export(@By() viewer: Viewer): Promise<YardFile> {
    return this.yards.export(viewer);
  }

  /** What is to be looked at, though it may be planned. */
  @Get(':yardId/warnings')
  @Answers(200, YardWarnings)
  warnings(@By() viewer: Viewer): Promise<YardWarnings> {
    return this.yards.warnings(viewer);
  }

  @Get(':yardId/outdoor')
  @Answers(200, Outdoor)
  outdoor(@By() viewer: Viewer): Promise<Outdoor> {
    return this.yards.outdoor(viewer);
  }

  /** An hourly table replaces the one before. */
  @Put(':yardId/outdoor')
  @LargeBody()
  @Answers(200, Outdoor)
  importOutdoor(@By() viewer: Viewer, @BodyOf(OutdoorInput) input: OutdoorInput): Promise<Outdoor> {
    return this.yards.importOutdoor(viewer, input);
  }
}
