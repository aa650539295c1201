import { Module } from '@nestjs/common';
import { ClimateController } from './climate.controller.ts';
import { ClimateResolver } from './climate.resolver.ts';
import { ClimateService } from './climate.service.ts';

@Module({
  controllers: [ClimateController],
  providers: [ClimateService, ClimateResolver],
  exports: [ClimateService],
})
export class ClimateModule {}
