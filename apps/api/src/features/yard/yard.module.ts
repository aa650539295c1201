import { Module } from '@nestjs/common';
import { YardController } from './yard.controller.ts';
import { YardResolver } from './yard.resolver.ts';
import { YardService } from './yard.service.ts';

@Module({
  controllers: [YardController],
  providers: [YardService, YardResolver],
  exports: [YardService],
})
export class YardModule {}
