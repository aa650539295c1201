import { Controller, Get, Patch } from '@nestjs/common';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { IfMatch } from '../../platform/etag/revision.ts';
import { Answers } from '../../platform/http/answers.ts';
import { BodyOf } from '../../platform/shapes/input.ts';
import { LiveSettings, LiveSettingsPatch } from './live-settings.contract.ts';
import { LiveSettingsService } from './live-settings.service.ts';

@Controller('yards/:yardId/live-settings')
export class LiveSettingsController {
  constructor(private readonly settings: LiveSettingsService) {}

  @Get()
  @Answers(200, LiveSettings)
  get(@By() viewer: Viewer): Promise<LiveSettings> {
    return this.settings.get(viewer);
  }

  @Patch()
  @Answers(200, LiveSettings)
  update(
    @By() viewer: Viewer,
    @IfMatch() revision: number,
    @BodyOf(LiveSettingsPatch) patch: LiveSettingsPatch,
  ): Promise<LiveSettings> {
    return this.settings.update(viewer, revision, patch);
  }
}
