import { Module } from '@nestjs/common';
import { SecondFactorModule } from '../second-factor/second-factor.module.ts';
import { AccessSettingsController } from './access-settings.controller.ts';
import { AccessSettingsResolver } from './access-settings.resolver.ts';
import { AccessSettingsService } from './access-settings.service.ts';

@Module({
  imports: [SecondFactorModule],
  controllers: [AccessSettingsController],
  providers: [AccessSettingsService, AccessSettingsResolver],
})
export class AccessSettingsModule {}
