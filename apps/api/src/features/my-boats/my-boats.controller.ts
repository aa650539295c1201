import { Controller, Get, Param } from '@nestjs/common';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Answers } from '../../platform/http/answers.ts';
import { MyBoat, MyBoats } from './my-boats.contract.ts';
import { MyBoatsService } from './my-boats.service.ts';

@Controller('yards/:yardId/my-boats')
export class MyBoatsController {
  constructor(private readonly boats: MyBoatsService) {}

  @Get()
  @Answers(200, MyBoats)
  list(@By() viewer: Viewer): Promise<MyBoats> {
    return this.boats.list(viewer);
  }

  @Get(':id')
  @Answers(200, MyBoat)
  get(@By() viewer: Viewer, @Param('id') id: string): Promise<MyBoat> {
    return this.boats.get(viewer, id);
  }
}
