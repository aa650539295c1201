import { Args, Int, Mutation, Query, Resolver } from '@nestjs/graphql';
import { By, YardArg } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import { LiveSettings, LiveSettingsPatch } from './live-settings.contract.ts';
import { LiveSettingsService } from './live-settings.service.ts';

@Resolver(() => LiveSettings)
export class LiveSettingsResolver {
  constructor(private readonly settings: LiveSettingsService) {}

  @Query(() => LiveSettings)
  liveSettings(@By() viewer: Viewer, @YardArg() _yardId: string): Promise<LiveSettings> {
    return this.settings.get(viewer);
  }

  @Mutation(() => LiveSettings)
  updateLiveSettings(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('revision', { type: () => Int }) revision: number,
    @ArgOf(LiveSettingsPatch) patch: LiveSettingsPatch,
  ): Promise<LiveSettings> {
    return this.settings.update(viewer, revision, patch);
  }
}
