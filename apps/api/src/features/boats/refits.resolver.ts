import { Args, ID, Int, Mutation, Resolver } from '@nestjs/graphql';
import { By, YardArg } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import {
  Job,
  JobInput,
  JobPatch,
  Part,
  PartInput,
  PartPatch,
  Refit,
  RefitInput,
  RefitPatch,
} from './boats.contract.ts';
import { JobsService } from './jobs.service.ts';
import { PartsService } from './parts.service.ts';
import { RefitsService } from './refits.service.ts';

/** What is inside a boat is read with it; these are the changes. */
@Resolver()
export class RefitsResolver {
  constructor(
    private readonly refits: RefitsService,
    private readonly parts: PartsService,
    private readonly jobs: JobsService,
  ) {}

  @Mutation(() => Refit)
  createRefit(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('boatId', { type: () => ID }) boatId: string,
    @ArgOf(RefitInput) input: RefitInput,
  ): Promise<Refit> {
    return this.refits.create(viewer, boatId, input);
  }

  @Mutation(() => Refit)
  updateRefit(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
    @Args('revision', { type: () => Int }) revision: number,
    @ArgOf(RefitPatch) patch: RefitPatch,
  ): Promise<Refit> {
    return this.refits.update(viewer, id, revision, patch);
  }

  @Mutation(() => Part)
  createPart(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('refitId', { type: () => ID }) refitId: string,
    @ArgOf(PartInput) input: PartInput,
  ): Promise<Part> {
    return this.parts.create(viewer, refitId, input);
  }

  @Mutation(() => Part)
  updatePart(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
    @Args('revision', { type: () => Int }) revision: number,
    @ArgOf(PartPatch) patch: PartPatch,
  ): Promise<Part> {
    return this.parts.update(viewer, id, revision, patch);
  }

  @Mutation(() => Job)
  addJob(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('partId', { type: () => ID }) partId: string,
    @ArgOf(JobInput) input: JobInput,
  ): Promise<Job> {
    return this.jobs.create(viewer, partId, input);
  }

  @Mutation(() => Job)
  updateJob(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
    @Args('revision', { type: () => Int }) revision: number,
    @ArgOf(JobPatch) patch: JobPatch,
  ): Promise<Job> {
    return this.jobs.update(viewer, id, revision, patch);
  }

  @Mutation(() => Boolean)
  async removeJob(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
  ): Promise<boolean> {
    await this.jobs.remove(viewer, id);
    return true;
  }
}
