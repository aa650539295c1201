import { Args, Int, Mutation, Query, Resolver } from '@nestjs/graphql';
import { By, ByAccount, YardArg } from '../../platform/access/caller.ts';
import type { Account, Viewer } from '../../platform/access/viewer.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import { AccessSettings, AccessSettingsPatch } from './access-settings.contract.ts';
import { AccessSettingsService } from './access-settings.service.ts';

@Resolver(() => AccessSettings)
export class AccessSettingsResolver {
  constructor(private readonly settings: AccessSettingsService) {}

  @Query(() => AccessSettings)
  accessSettings(@By() viewer: Viewer, @YardArg() _yardId: string): Promise<AccessSettings> {
    return this.settings.get(viewer);
  }

  @Mutation(() => AccessSettings)
  updateAccessSettings(
    @By() viewer: Viewer,
    @ByAccount() account: Account,
    @YardArg() _yardId: string,
    @Args('revision', { type: () => Int }) revision: number,
    @ArgOf(AccessSettingsPatch) patch: AccessSettingsPatch,
  ): Promise<AccessSettings> {
    return this.settings.update(viewer, account, revision, patch);
  }
}
