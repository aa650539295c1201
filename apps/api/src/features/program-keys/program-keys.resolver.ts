import { Args, ID, Mutation, Query, Resolver } from '@nestjs/graphql';
import { By, ByAccount, YardArg } from '../../platform/access/caller.ts';
import { From, type Origin } from '../../platform/access/origin.ts';
import type { Account, Viewer } from '../../platform/access/viewer.ts';
import { ShownOnce } from '../../platform/idempotency/secret.ts';
import { PageArg } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import {
  NewProgramKey,
  ProgramKey,
  ProgramKeyInput,
  ProgramKeyPage,
} from './program-keys.contract.ts';
import { ProgramKeysService } from './program-keys.service.ts';

@Resolver(() => ProgramKey)
export class ProgramKeysResolver {
  constructor(private readonly keys: ProgramKeysService) {}

  @Query(() => ProgramKeyPage, { name: 'programKeys' })
  list(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @PageArg() page: PageRequest,
  ): Promise<Page<ProgramKey>> {
    return this.keys.list(viewer, page);
  }

  @Mutation(() => NewProgramKey, { name: 'createProgramKey' })
  @ShownOnce('token')
  create(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @ByAccount() account: Account,
    @From() from: Origin,
    @ArgOf(ProgramKeyInput) input: ProgramKeyInput,
  ): Promise<NewProgramKey> {
    return this.keys.create(viewer, account, input, from);
  }

  @Mutation(() => Boolean, { name: 'revokeProgramKey' })
  async revoke(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
  ): Promise<boolean> {
    await this.keys.revoke(viewer, id);
    return true;
  }
}
