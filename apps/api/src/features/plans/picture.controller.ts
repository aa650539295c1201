import { Controller, Get, Param } from '@nestjs/common';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Answers } from '../../platform/http/answers.ts';
import { QueryOf } from '../../platform/shapes/input.ts';
import { PictureQuery, PlanPicture } from './picture.contract.ts';
import { PictureService } from './picture.service.ts';

@Controller('yards/:yardId')
export class PictureController {
  constructor(private readonly pictures: PictureService) {}

  /** What has to be drawn of some days of a plan: work, films, hours, and how it stands by now. */
  @Get('plans/:id/picture')
  @Answers(200, PlanPicture)
  picture(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @QueryOf(PictureQuery) query: PictureQuery,
  ): Promise<PlanPicture> {
    return this.pictures.picture(viewer, id, query);
  }

  /** The same of the plan that the yard works to. */
  @Get('published-plan/picture')
  @Answers(200, PlanPicture)
  published(
    @By() viewer: Viewer,
    @QueryOf(PictureQuery) query: PictureQuery,
  ): Promise<PlanPicture> {
    return this.pictures.picture(viewer, null, query);
  }
}
