import { Module } from '@nestjs/common';
import { BondsController } from './bonds.controller.ts';
import { BondsResolver } from './bonds.resolver.ts';
import { BondsService } from './bonds.service.ts';

@Module({
  controllers: [BondsController],
  providers: [BondsService, BondsResolver],
  exports: [BondsService],
})
export class BondsModule {}
