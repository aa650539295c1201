import { Module } from '@nestjs/common';
import { FabricsController } from './fabrics.controller.ts';
import { FabricsResolver } from './fabrics.resolver.ts';
import { FabricsService } from './fabrics.service.ts';

@Module({
  controllers: [FabricsController],
  providers: [FabricsService, FabricsResolver],
  exports: [FabricsService],
})
export class FabricsModule {}
