import { Controller, Delete, Get, Param, Post } from '@nestjs/common';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Answers } from '../../platform/http/answers.ts';
import { LargeBody } from '../../platform/http/json-body.ts';
import type { Page } from '../../platform/paging/page.ts';
import { BodyOf, QueryOf } from '../../platform/shapes/input.ts';
import {
  Reading,
  ReadingList,
  ReadingPage,
  ReadingsInput,
  ReadingsQuery,
} from './readings.contract.ts';
import { ReadingsService } from './readings.service.ts';

@Controller('yards/:yardId/readings')
export class ReadingsController {
  constructor(private readonly readings: ReadingsService) {}

  @Get()
  @Answers(200, ReadingPage)
  list(
    @By() viewer: Viewer,
    @QueryOf(ReadingsQuery) { first, after, ...filter }: ReadingsQuery,
  ): Promise<Page<Reading>> {
    return this.readings.list(viewer, filter, { first, after });
  }

  @Get(':id')
  @Answers(200, Reading)
  get(@By() viewer: Viewer, @Param('id') id: string): Promise<Reading> {
    return this.readings.get(viewer, id);
  }

  @Post()
  @LargeBody()
  @Answers(201, ReadingList)
  add(@By() viewer: Viewer, @BodyOf(ReadingsInput) input: ReadingsInput): Promise<ReadingList> {
    return this.readings.add(viewer, input);
  }

  /** A reading never changes, so nothing guards it. */
  @Delete(':id')
  @Answers(204)
  async remove(@By() viewer: Viewer, @Param('id') id: string): Promise<void> {
    await this.readings.remove(viewer, id);
  }
}
