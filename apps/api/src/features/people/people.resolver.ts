import { Args, ID, Int, Mutation, Query, Resolver } from '@nestjs/graphql';
import { By, YardArg } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { PageArg } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import { Person, PersonInput, PersonPage, PersonPatch } from './people.contract.ts';
import { PeopleService } from './people.service.ts';

@Resolver(() => Person)
export class PeopleResolver {
  constructor(private readonly people: PeopleService) {}

  @Query(() => PersonPage, { name: 'people' })
  list(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @PageArg() page: PageRequest,
  ): Promise<Page<Person>> {
    return this.people.list(viewer, page);
  }

  @Query(() => Person, { name: 'person' })
  get(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
  ): Promise<Person> {
    return this.people.get(viewer, id);
  }

  @Mutation(() => Person, { name: 'createPerson' })
  create(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @ArgOf(PersonInput) input: PersonInput,
  ): Promise<Person> {
    return this.people.create(viewer, input);
  }

  @Mutation(() => Person, { name: 'updatePerson' })
  update(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
    @Args('revision', { type: () => Int }) revision: number,
    @ArgOf(PersonPatch) patch: PersonPatch,
  ): Promise<Person> {
    return this.people.update(viewer, id, revision, patch);
  }

  @Mutation(() => Boolean, { name: 'endAccess' })
  async endAccess(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
    @Args('revision', { type: () => Int }) revision: number,
  ): Promise<boolean> {
    await this.people.endAccess(viewer, id, revision);
    return true;
  }
}
