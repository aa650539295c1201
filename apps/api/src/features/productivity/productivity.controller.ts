import { Controller, Get, Post } from '@nestjs/common';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Answers } from '../../platform/http/answers.ts';
import { BodyOf } from '../../platform/shapes/input.ts';
import { Productivity, ProductivityApplied, ProductivityInput } from './productivity.contract.ts';
import { ProductivityService } from './productivity.service.ts';

@Controller('yards/:yardId/productivity')
export class ProductivityController {
  constructor(private readonly productivity: ProductivityService) {}

  @Get()
  @Answers(200, Productivity)
  get(@By() viewer: Viewer): Promise<Productivity> {
    return this.productivity.get(viewer);
  }

  @Post('apply')
  @Answers(200, ProductivityApplied)
  apply(
    @By() viewer: Viewer,
    @BodyOf(ProductivityInput) input: ProductivityInput,
  ): Promise<ProductivityApplied> {
    return this.productivity.apply(viewer, input);
  }
}
