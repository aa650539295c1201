import { Controller, Get, Param, Post } from '@nestjs/common';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Answers } from '../../platform/http/answers.ts';
import { BodyOf, QueryOf } from '../../platform/shapes/input.ts';
import {
  BondAnswer,
  BondCheckInput,
  BondRuleList,
  PartSurface,
  PartSurfaceQuery,
} from './bonds.contract.ts';
import { BondsService } from './bonds.service.ts';

@Controller('yards/:yardId')
export class BondsController {
  constructor(private readonly bonds: BondsService) {}

  @Get('catalogue/bond-rules')
  @Answers(200, BondRuleList)
  rules(): BondRuleList {
    return this.bonds.rules();
  }

  /** How a coat bonds to a surface that is described. */
  @Post('bond-checks')
  @Answers(200, BondAnswer)
  check(@BodyOf(BondCheckInput) input: BondCheckInput): BondAnswer {
    return this.bonds.check(input);
  }

  /** What of a part is exposed, by its layers and by what was done to it. */
  @Get('parts/:id/surface')
  @Answers(200, PartSurface)
  surface(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @QueryOf(PartSurfaceQuery) query: PartSurfaceQuery,
  ): Promise<PartSurface> {
    return this.bonds.surface(viewer, id, query);
  }
}
