import { Module } from '@nestjs/common';
import { ToolsController } from './tools.controller.ts';
import { ToolsResolver } from './tools.resolver.ts';
import { ToolsService } from './tools.service.ts';

@Module({
  controllers: [ToolsController],
  providers: [ToolsService, ToolsResolver],
  exports: [ToolsService],
})
export class ToolsModule {}
