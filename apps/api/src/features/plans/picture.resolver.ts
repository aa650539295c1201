import { Query, Resolver } from '@nestjs/graphql';
import { By, YardArg } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import { PictureQuery, PlanPicture } from './picture.contract.ts';
import { PictureService } from './picture.service.ts';
import { PlanArg } from './plan-arg.ts';

@Resolver(() => PlanPicture)
export class PictureResolver {
  constructor(private readonly pictures: PictureService) {}

  @Query(() => PlanPicture, { name: 'planPicture' })
  picture(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @ArgOf(PictureQuery) input: PictureQuery,
    @PlanArg() id?: string,
  ): Promise<PlanPicture> {
    return this.pictures.picture(viewer, id ?? null, input);
  }
}
