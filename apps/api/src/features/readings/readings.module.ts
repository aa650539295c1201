import { Module } from '@nestjs/common';
import { ReadingsController } from './readings.controller.ts';
import { ReadingsResolver } from './readings.resolver.ts';
import { ReadingsService } from './readings.service.ts';

@Module({
  controllers: [ReadingsController],
  providers: [ReadingsService, ReadingsResolver],
  exports: [ReadingsService],
})
export class ReadingsModule {}
