import { Controller, Get } from '@nestjs/common';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Answers } from '../../platform/http/answers.ts';
import { QueryOf } from '../../platform/shapes/input.ts';
import { Ready, ReadyQuery } from './ready.contract.ts';
import { ReadyService } from './ready.service.ts';

@Controller('yards/:yardId/ready')
export class ReadyController {
  constructor(private readonly service: ReadyService) {}

  @Get()
  @Answers(200, Ready)
  ready(@By() viewer: Viewer, @QueryOf(ReadyQuery) query: ReadyQuery): Promise<Ready> {
    return this.service.ready(viewer, query);
  }
}
