import { Args, ID, Mutation, Query, Resolver } from '@nestjs/graphql';
import { By, YardArg } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { PageArg } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import {
  Reading,
  ReadingList,
  ReadingPage,
  ReadingsFilter,
  ReadingsInput,
} from './readings.contract.ts';
import { ReadingsService } from './readings.service.ts';

@Resolver(() => Reading)
export class ReadingsResolver {
  constructor(private readonly readings: ReadingsService) {}

  @Query(() => ReadingPage, { name: 'readings' })
  list(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @ArgOf(ReadingsFilter) input: ReadingsFilter,
    @PageArg() page: PageRequest,
  ): Promise<Page<Reading>> {
    return this.readings.list(viewer, input, page);
  }

  @Query(() => Reading, { name: 'reading' })
  get(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
  ): Promise<Reading> {
    return this.readings.get(viewer, id);
  }

  @Mutation(() => ReadingList, { name: 'addReadings' })
  add(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @ArgOf(ReadingsInput) input: ReadingsInput,
  ): Promise<ReadingList> {
    return this.readings.add(viewer, input);
  }

  @Mutation(() => Reading, { name: 'removeReading' })
  remove(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
  ): Promise<Reading> {
    return this.readings.remove(viewer, id);
  }
}
