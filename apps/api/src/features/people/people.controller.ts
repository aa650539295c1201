import { Controller, Delete, Get, Param, Patch, Post } from '@nestjs/common';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { IfMatch } from '../../platform/etag/revision.ts';
import { Answers } from '../../platform/http/answers.ts';
import { PageOf } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { BodyOf } from '../../platform/shapes/input.ts';
import { Person, PersonInput, PersonPage, PersonPatch } from './people.contract.ts';
import { PeopleService } from './people.service.ts';

@Controller('yards/:yardId/people')
export class PeopleController {
  constructor(private readonly people: PeopleService) {}

  @Get()
  @Answers(200, PersonPage)
  list(@By() viewer: Viewer, @PageOf() page: PageRequest): Promise<Page<Person>> {
    return this.people.list(viewer, page);
  }

  @Get(':id')
  @Answers(200, Person)
  get(@By() viewer: Viewer, @Param('id') id: string): Promise<Person> {
    return this.people.get(viewer, id);
  }

  @Post()
  @Answers(201, Person)
  create(@By() viewer: Viewer, @BodyOf(PersonInput) input: PersonInput): Promise<Person> {
    return this.people.create(viewer, input);
  }

  @Patch(':id')
  @Answers(200, Person)
  update(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @IfMatch() revision: number,
    @BodyOf(PersonPatch) patch: PersonPatch,
  ): Promise<Person> {
    return this.people.update(viewer, id, revision, patch);
  }

  @Delete(':id')
  @Answers(204)
  remove(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @IfMatch() revision: number,
  ): Promise<void> {
    return this.people.remove(viewer, id, revision);
  }

  /** Nobody signs in as the person any more; keys and links of theirs end. The person stays. */
  @Delete(':id/account')
  @Answers(204)
  endAccess(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @IfMatch() revision: number,
  ): Promise<void> {
    return this.people.endAccess(viewer, id, revision);
  }
}
