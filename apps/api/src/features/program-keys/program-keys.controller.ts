import { Controller, Delete, Get, Param, Post } from '@nestjs/common';
import { By, ByAccount } from '../../platform/access/caller.ts';
import { From, type Origin } from '../../platform/access/origin.ts';
import type { Account, Viewer } from '../../platform/access/viewer.ts';
import { Answers } from '../../platform/http/answers.ts';
import { ShownOnce } from '../../platform/idempotency/secret.ts';
import { PageOf } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { BodyOf } from '../../platform/shapes/input.ts';
import {
  NewProgramKey,
  ProgramKey,
  ProgramKeyInput,
  ProgramKeyPage,
} from './program-keys.contract.ts';
import { ProgramKeysService } from './program-keys.service.ts';

@Controller('yards/:yardId/program-keys')
export class ProgramKeysController {
  constructor(private readonly keys: ProgramKeysService) {}

  @Get()
  @Answers(200, ProgramKeyPage)
  list(@By() viewer: Viewer, @PageOf() page: PageRequest): Promise<Page<ProgramKey>> {
    return this.keys.list(viewer, page);
  }

  @Post()
  @ShownOnce('token')
  @Answers(201, NewProgramKey)
  create(
    @By() viewer: Viewer,
    @ByAccount() account: Account,
    @From() from: Origin,
    @BodyOf(ProgramKeyInput) input: ProgramKeyInput,
  ): Promise<NewProgramKey> {
    return this.keys.create(viewer, account, input, from);
  }

  @Delete(':id')
  @Answers(204)
  revoke(@By() viewer: Viewer, @Param('id') id: string): Promise<void> {
    return this.keys.revoke(viewer, id);
  }
}
