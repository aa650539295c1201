import { Args, ID, Int, Mutation, Query, Resolver } from '@nestjs/graphql';
import { By, YardArg } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { PageArg } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import { Skill, SkillInput, SkillPage, SkillPatch } from './skills.contract.ts';
import { SkillsService } from './skills.service.ts';

@Resolver(() => Skill)
export class SkillsResolver {
  constructor(private readonly skills: SkillsService) {}

  @Query(() => SkillPage, { name: 'skills' })
  list(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @PageArg() page: PageRequest,
  ): Promise<Page<Skill>> {
    return this.skills.list(viewer, page);
  }

  @Query(() => Skill, { name: 'skill' })
  get(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
  ): Promise<Skill> {
    return this.skills.get(viewer, id);
  }

  @Mutation(() => Skill, { name: 'createSkill' })
  create(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @ArgOf(SkillInput) input: SkillInput,
  ): Promise<Skill> {
    return this.skills.create(viewer, input);
  }

  @Mutation(() => Skill, { name: 'updateSkill' })
  update(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
    @Args('revision', { type: () => Int }) revision: number,
    @ArgOf(SkillPatch) patch: SkillPatch,
  ): Promise<Skill> {
    return this.skills.update(viewer, id, revision, patch);
  }
}
