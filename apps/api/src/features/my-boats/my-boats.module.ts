import { Module } from '@nestjs/common';
import { MyBoatsController } from './my-boats.controller.ts';
import { MyBoatsResolver } from './my-boats.resolver.ts';
import { MyBoatsService } from './my-boats.service.ts';

@Module({
  controllers: [MyBoatsController],
  providers: [MyBoatsService, MyBoatsResolver],
  exports: [MyBoatsService],
})
export class MyBoatsModule {}
