import { Controller, Get, Patch } from '@nestjs/common';
import { By, ByAccount } from '../../platform/access/caller.ts';
import type { Account, Viewer } from '../../platform/access/viewer.ts';
import { IfMatch } from '../../platform/etag/revision.ts';
import { Answers } from '../../platform/http/answers.ts';
import { BodyOf } from '../../platform/shapes/input.ts';
import { AccessSettings, AccessSettingsPatch } from './access-settings.contract.ts';
import { AccessSettingsService } from './access-settings.service.ts';

@Controller('yards/:yardId/access-settings')
export class AccessSettingsController {
  constructor(private readonly settings: AccessSettingsService) {}

  @Get()
  @Answers(200, AccessSettings)
  get(@By() viewer: Viewer): Promise<AccessSettings> {
    return this.settings.get(viewer);
  }

  @Patch()
  @Answers(200, AccessSettings)
  update(
    @By() viewer: Viewer,
    @ByAccount() account: Account,
    @IfMatch() revision: number,
    @BodyOf(AccessSettingsPatch) patch: AccessSettingsPatch,
  ): Promise<AccessSettings> {
    return this.settings.update(viewer, account, revision, patch);
  }
}
