import { Module } from '@nestjs/common';
import { LiveSettingsController } from './live-settings.controller.ts';
import { LiveSettingsResolver } from './live-settings.resolver.ts';
import { LiveSettingsService } from './live-settings.service.ts';

@Module({
  controllers: [LiveSettingsController],
  providers: [LiveSettingsService, LiveSettingsResolver],
})
export class LiveSettingsModule {}
